using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Answers.Why;

/// <summary>Whether a zone is watered on a date, and the lines that make it so.</summary>
/// <param name="Site">The site.</param>
/// <param name="Zone">The zone.</param>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="Waterings">Those of passes that belong to the date, and those of others that begin on it; in order.</param>
/// <param name="Schedules">What each schedule that waters the zone makes of the date, in order of the file.</param>
internal sealed record DayAnswer(Site Site, Zone Zone, int Day, ImmutableArray<DayWatering> Waterings, ImmutableArray<ScheduleAnswer> Schedules)
{
    /// <summary>Answers for a zone of a site that was read without an error.</summary>
    /// <exception cref="WorkUsedUpException">The dates around that one are too much work.</exception>
    public static DayAnswer Of(Site site, Zone zone, LocalDate date)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(zone);
        var day = CivilDate.DayNumberOf(date);
        var timetable = Timetable.WithWhatIsUnderWay(
            site, new Horizon(date.PlusDays(-1), date.PlusDays(2)), new WorkBudget(Limits.CheckWorkOf(site.SourceLength)));
        return new DayAnswer(site, zone, day, [.. WateringsOn(timetable, zone, day)], ScheduleAnswers.Of(timetable, zone, day));
    }

    private static IEnumerable<DayWatering> WateringsOn(Timetable timetable, Zone zone, int day)
    {
        var clock = new ZoneClock(timetable.Site.TimeZone);
        return timetable.Runs()
            .Where(run => run.Zone == zone.Index && (run.Day == day || clock.At(run.Start).Day == day))
            .Select(run => new DayWatering(timetable.Site.Schedules[run.Schedule], timetable.StepPath(run), timetable.StepOf(run.Schedule, run.Step).Origin,
                run.Day, run.Start, run.End));
    }
}

/// <summary>A watering of a zone.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="Step">The path of its step.</param>
/// <param name="Origin">Where the step is written.</param>
/// <param name="Day">The date that its pass belongs to, in days since 1970-01-01.</param>
/// <param name="From">Its start, in Unix seconds.</param>
/// <param name="To">Its end.</param>
internal sealed record DayWatering(Schedule Schedule, string Step, Location Origin, int Day, long From, long To);

/// <summary>What a schedule makes of a date for a zone.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="IsDue">Whether it has a pass that belongs to the date, whatever is taken of it.</param>
/// <param name="Lines">What makes it so, in the order in which it is decided.</param>
internal sealed record ScheduleAnswer(Schedule Schedule, bool IsDue, ImmutableArray<DecidingLine> Lines);

/// <summary>A line that has a say in whether a date is watered.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Says">What it says of the date, in a few words.</param>
/// <param name="IsAgainst">Whether it keeps water away.</param>
internal sealed record DecidingLine(Location Origin, string Says, bool IsAgainst);
