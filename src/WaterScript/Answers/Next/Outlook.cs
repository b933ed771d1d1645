using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>What a site does at a moment, what keeps it shut then, and what comes next.</summary>
/// <param name="Site">The site.</param>
/// <param name="At">The moment, in Unix seconds.</param>
/// <param name="Open">Waterings under way, in order of their start.</param>
/// <param name="On">Pumps, masters and injectors that are on.</param>
/// <param name="Shut">What keeps ground dry on that date.</param>
/// <param name="NotAllowed">What restrictions do not allow at that moment or later on that date.</param>
/// <param name="Coming">What comes after the moment, in order of its start.</param>
/// <param name="LookedUntil">The first date that was not looked at.</param>
/// <param name="NotWatered">What is due on the dates that were asked for and does not come, by date; empty where none were asked for.</param>
internal sealed record Outlook(
    Site Site,
    long At,
    ImmutableArray<OpenNow> Open,
    ImmutableArray<DeviceOnNow> On,
    ImmutableArray<KeptShut> Shut,
    ImmutableArray<NotAllowed> NotAllowed,
    ImmutableArray<ComingWatering> Coming,
    LocalDate LookedUntil,
    ImmutableArray<NotWatered> NotWatered)
{
    /// <summary>Dates that are looked at: every season comes once.</summary>
    private const int DaysAhead = 366;

    /// <summary>The work of looking ahead is that of a check by so many.</summary>
    private const int ShareOfCheck = 8;

    /// <summary>Where a year is too much, a part of it is looked at, and a part of that.</summary>
    private const int FewerDays = 4;

    /// <summary>The outlook of a site, over fewer dates where those of a year are too much work.</summary>
    /// <param name="site">The site, read without an error.</param>
    /// <param name="at">The moment.</param>
    /// <param name="count">The most waterings to look for; 1 or more.</param>
    /// <param name="dates">Dates to look at, that of the moment included; null to look as far ahead as it takes.</param>
    /// <exception cref="WorkUsedUpException">One date, or what was asked for, is too much work.</exception>
    public static Outlook Of(Site site, Instant at, int count, int? dates = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (dates is { } asked) return Of(site, at, count, asked, lists: true);
        for (var days = DaysAhead; days > 1; days /= FewerDays)
        {
            try
            {
                return Of(site, at, count, days, lists: false);
            }
            catch (WorkUsedUpException)
            {
                // A part of the dates may do.
            }
        }

        return Of(site, at, count, days: 1, lists: false);
    }

    private static Outlook Of(Site site, Instant at, int count, int days, bool lists)
    {
        var budget = new WorkBudget(Limits.CheckWorkOf(site.SourceLength) / ShareOfCheck);
        var now = at.ToUnixTimeSeconds();
        var today = at.InZone(site.TimeZone).Date;
        var horizon = Horizon.DaysFrom(today, days);
        var end = new ZoneClock(site.TimeZone).StartOfDay(CivilDate.DayNumberOf(horizon.Until));
        var timetable = Timetable.WithWhatIsUnderWay(site, horizon, budget);
        return new Outlook(
            site,
            now,
            [.. OpenAt(timetable, now)],
            [.. DeviceOnNow.At(timetable, now)],
            [.. KeptShut.At(site, now, budget)],
            [.. Answers.Next.NotAllowed.At(timetable, now)],
            [.. ComingWaterings.Find(timetable, now, count).Where(coming => !lists || coming.First < end)],
            horizon.Until,
            lists ? [.. Answers.Next.NotWatered.On(site, now, horizon, budget)] : []);
    }

    private static IEnumerable<OpenNow> OpenAt(Timetable timetable, long now)
    {
        foreach (var run in timetable.Runs())
        {
            if (run.Start > now) yield break;
            if (run.End > now) yield return OpenNow.Of(run, timetable);
        }
    }
}

/// <summary>A watering under way.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Schedule">The schedule that waters it.</param>
/// <param name="Pass">Number of the pass among those of its date and start.</param>
/// <param name="Step">The path of its step.</param>
/// <param name="Origin">Where the step is written.</param>
/// <param name="From">Its start, in Unix seconds.</param>
/// <param name="Until">Its end.</param>
internal sealed record OpenNow(Zone Zone, Schedule Schedule, int Pass, string Step, Location Origin, long From, long Until)
{
    internal static OpenNow Of(in Run run, Timetable timetable) => new(
        timetable.Site.Zones[run.Zone],
        timetable.Site.Schedules[run.Schedule],
        run.Pass,
        timetable.StepPath(run),
        timetable.StepOf(run.Schedule, run.Step).Origin,
        run.Start,
        run.End);
}

/// <summary>A line that keeps ground dry.</summary>
/// <param name="By">What kind of line.</param>
/// <param name="Origin">Where it stands.</param>
/// <param name="Because">The reason given there, or null.</param>
/// <param name="Zones">The zones; empty for all.</param>
/// <param name="Until">The first instant after it, in Unix seconds; null where it has no end, or none that the line names.</param>
internal sealed record KeptShut(SkipCause By, Location Origin, string? Because, ImmutableArray<Zone> Zones, long? Until)
{
    /// <summary>Holds and closed seasons in force at an instant, then what scale and <c>cut off at</c> lines take of that date.</summary>
    internal static IEnumerable<KeptShut> At(Site site, long now, WorkBudget budget)
    {
        var clock = new ZoneClock(site.TimeZone);
        var today = clock.At(now).Day;
        foreach (var (hold, until) in Holds.Of(site, clock).At(now))
            yield return new KeptShut(SkipCause.Hold, hold.Origin, hold.Because, hold.Zones, until == long.MaxValue ? null : until);
        foreach (var closed in site.ClosedSeasons)
        {
            var days = DayPattern.Of([closed.Days], season: null, except: [], site.Effective);
            if (days.IsDue(today)) yield return new KeptShut(SkipCause.ClosedSeason, closed.Origin, closed.Because, [], clock.StartOfDay(EndOf(days, today)));
        }

        foreach (var taken in OfDate(site, today, budget)) yield return taken;
    }

    private static IEnumerable<KeptShut> OfDate(Site site, int day, WorkBudget budget)
    {
        var skipped = new SkippedWater();
        foreach (var _ in Timetable.Of(site, Horizon.DaysFrom(CivilDate.FromDayNumber(day).ToLocalDate(), 1), budget).Runs(skipped)) { }

        return skipped.Water.Where(water => water.By is SkipCause.Scale or SkipCause.Cut)
            .GroupBy(water => (water.By, Origin: CauseOf(water, site)))
            .Select(group => new KeptShut(group.Key.By, group.Key.Origin, Because: null, [.. group.Select(water => water.Zone).Distinct()], Until: null));
    }

    /// <summary>The line that makes a share, where the timetable names the step that has nothing left of it.</summary>
    internal static Location CauseOf(SkippedWatering water, Site site) => water.By != SkipCause.Scale
        ? water.Origin
        : site.Schedules.FirstOrDefault(schedule =>
            schedule.Scale is not null && WaterSteps.Of(schedule).Any(step => step.Origin == water.Origin))?.Scale!.Origin
            ?? site.Scale?.Origin ?? water.Zone.WrittenTrim?.Place ?? water.Origin;

    private static int EndOf(DayPattern days, int day)
    {
        const int longest = 367;
        var end = day;
        while (days.IsDue(end) && end - day < longest) end++;
        return end;
    }
}
