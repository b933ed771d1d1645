namespace WaterScript.Checks;

/// <summary>Which step of which schedule asks for something.</summary>
/// <param name="Schedule">Index among the site's schedules.</param>
/// <param name="Step">Index among the schedule's step paths.</param>
internal readonly record struct Asker(int Schedule, int Step);
