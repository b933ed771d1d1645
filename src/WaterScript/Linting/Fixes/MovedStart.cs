using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Fixes;

/// <summary>A start by the clock, some time later on the same date.</summary>
/// <param name="Schedule">The schedule, as it is.</param>
/// <param name="Start">The start, as it is.</param>
/// <param name="Clock">When it would be.</param>
internal sealed record MovedStart(Schedule Schedule, StartAt Start, ClockMoment Clock)
{
    /// <summary>The time as it is written: <c>06:40</c>.</summary>
    public string Time => MomentWords.Time(LocalTime.FromSecondsSinceMidnight(Clock.SecondOfDay));

    /// <summary>The schedule with it.</summary>
    public Schedule Moved => Schedule with { Starts = Schedule.Starts.Replace(Start, Start with { Moment = Clock }) };

    /// <summary>The edit; null where the time is not written at the start itself.</summary>
    public Fix? Fix => char.IsAsciiDigit(Clock.Origin.Text[0]) ? Fix.Unsafe($"start at {Time}", Clock.Origin, Time) : null;

    /// <summary>A start of a schedule so many seconds later; null where no clock gives it, or it would fall on the next date.</summary>
    public static MovedStart? Of(Schedule schedule, int number, long seconds) =>
        schedule.Starts.FirstOrDefault(start => start.Number == number) is StartAt { Moment: ClockMoment clock } start
            && clock.SecondOfDay + seconds < NodaConstants.SecondsPerDay
            ? new MovedStart(schedule, start, clock with { SecondOfDay = (int)(clock.SecondOfDay + seconds) })
            : null;

    /// <summary>The same of the only start of a schedule; null where there are several.</summary>
    public static MovedStart? OfOnly(Schedule schedule, long seconds) => schedule.Starts is [var only] ? Of(schedule, only.Number, seconds) : null;
}
