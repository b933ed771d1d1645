using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>A date of a schedule.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="Passes">Its passes; until the next date is asked for.</param>
/// <param name="Notes">What a person should know about it; until the next date is asked for.</param>
internal readonly record struct ScheduleDay(Schedule Schedule, int Day, IReadOnlyList<Pass> Passes, IReadOnlyList<DayNote> Notes);
