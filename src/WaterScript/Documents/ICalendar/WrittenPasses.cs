using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// How many passes a date has by what a schedule says, with the sun up from six to six. So the number is the same on any dates and
/// in any place, and what is decided by it does not turn with the season.
/// </summary>
internal static class WrittenPasses
{
    private const int Sunrise = 6 * 3_600;
    private const int Sunset = 18 * 3_600;

    /// <summary>The passes of a date, of all starts together.</summary>
    public static long Of(Schedule schedule, Site site) => schedule.Repeat switch
    {
        RepeatTimes times => (long)schedule.Starts.Length * times.Passes,
        RepeatUntil until => schedule.Starts.Sum(start => Between(FirstOf(start, site), until)),
        _ => schedule.Starts.Length,
    };

    private static long Between(long first, RepeatUntil until)
    {
        var last = SecondOf(until.Until) + (until.NextDay ? ZoneClock.SecondsInDay : 0);
        return last < first ? 0 : ((last - first) / until.Every.WholeSeconds()) + 1;
    }

    /// <summary>A schedule that follows another is taken to go by the first start of that one; they never lead in a circle.</summary>
    private static long FirstOf(Start start, Site site) => start switch
    {
        StartAt at => SecondOf(at.Moment),
        FinishBy by => SecondOf(by.Moment),
        StartAfter after => FirstOf(site.Schedules.First(other => other.Name == after.Other).Starts[0], site) + after.Delay.WholeSeconds(),
        _ => 0,
    };

    private static long SecondOf(Moment moment) => moment switch
    {
        ClockMoment clock => clock.SecondOfDay,
        SunMoment sun => (sun.Event == SunEvent.Sunrise ? Sunrise : Sunset) + sun.Offset.WholeSeconds(),
        _ => 0,
    };
}
