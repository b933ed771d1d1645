namespace WaterScript.Simulation;

/// <summary>Which step of which schedule asks for something.</summary>
/// <param name="Schedule">Index among the site's schedules.</param>
/// <param name="Step">Index among the schedule's step paths.</param>
internal readonly record struct StepOrigin(int Schedule, int Step);
