namespace WaterScript.Timetables;

/// <summary>One time through the steps of a schedule.</summary>
/// <param name="Start">In Unix seconds.</param>
/// <param name="Schedule">Index among the site's schedules.</param>
/// <param name="Day">The date that it belongs to, in days since 1970-01-01.</param>
/// <param name="StartNumber">Number of the start that it was calculated from, from 1; 0 for a manual one.</param>
/// <param name="Number">Number among the passes of its date and start, from 1.</param>
/// <param name="CutAt">Nothing of it runs from here on, in Unix seconds; <see cref="long.MaxValue"/> where nothing is cut.</param>
/// <param name="ClosedBy">Index of the closed season that takes it, among the site's; -1 where none does.</param>
/// <param name="Silence">Why the schedule that it starts after does not run, and it with that; null where it runs.</param>
internal readonly record struct Pass(
    long Start, int Schedule, int Day, int StartNumber, int Number, long CutAt = long.MaxValue, int ClosedBy = -1,
    Silence? Silence = null);
