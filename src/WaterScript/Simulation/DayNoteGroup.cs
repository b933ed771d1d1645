using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>The same note about several dates of a schedule: one cause, one finding.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="Kind">What the notes say.</param>
/// <param name="Origin">The moment or start that they are about.</param>
/// <param name="Other">The start that it falls together with, or null.</param>
/// <param name="FirstDay">The first date, in days since 1970-01-01.</param>
/// <param name="LastDay">The last date.</param>
/// <param name="Count">How many dates.</param>
/// <param name="Instant">The moment that was taken on the first date, in Unix seconds.</param>
internal sealed record DayNoteGroup(
    Schedule Schedule, DayNoteKind Kind, Location Origin, Location? Other, int FirstDay, int LastDay, int Count, long Instant)
{
    /// <summary>The moment that was taken on each of the dates, in Unix seconds.</summary>
    public List<long> Moments { get; } = [Instant];

    /// <summary>On which dates.</summary>
    public Occurrences Happens => new(MidnightOf(FirstDay), MidnightOf(LastDay), Count, Count) { IsWholeDays = true, Moments = Moments };

    private static LocalDateTime MidnightOf(int day) => CivilDate.FromDayNumber(day).ToLocalDate().AtMidnight();
}
