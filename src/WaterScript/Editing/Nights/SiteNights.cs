using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Editing.Nights;

/// <summary>A run of a night, and where it comes from.</summary>
/// <param name="Run">The run.</param>
/// <param name="Step">The step as it is written.</param>
/// <param name="Path">The path of that step: <c>1.3</c>.</param>
internal readonly record struct NightRun(Run Run, WaterStep Step, string Path);

/// <summary>
/// What a site waters on single dates: that of its next pass, and those on which a part of it comes next. What would be more work than an answer may take is
/// left out. It may be used from several threads.
/// </summary>
/// <param name="site">The site, read without an error.</param>
/// <param name="now">What time it is.</param>
internal sealed class SiteNights(Site site, Instant now)
{
    /// <summary>The work of looking ahead is that of a check by so many.</summary>
    private const int ShareOfCheck = 8;

    /// <summary>A pass may begin on another date than that which it belongs to.</summary>
    private const int DaysBeside = 2;

    private readonly Dictionary<int, ImmutableArray<NightRun>> _byDay = [];
    private readonly Lock _lock = new();
    private (Dictionary<int, int> Zones, Dictionary<int, int> Schedules, LocalDate Until)? _firsts;

    /// <summary>The site.</summary>
    public Site Site => site;

    /// <summary>What time it is, in Unix seconds; not before the site begins.</summary>
    public long Now { get; } = Math.Max(now.ToUnixTimeSeconds(), new ZoneClock(site.TimeZone).StartOfDay(CivilDate.DayNumberOf(site.Effective)));

    /// <summary>Today by the site's clock.</summary>
    public LocalDate Today => Instant.FromUnixTimeSeconds(Now).InZone(site.TimeZone).Date;

    /// <summary>The first date that was not looked at.</summary>
    public LocalDate LookedUntil => Firsts.Until;

    /// <summary>The date of the next pass, or of one under way, in days since 1970-01-01; null where there is none within a year.</summary>
    public int? Next => Firsts.Schedules.Count == 0 ? null : Firsts.Schedules.Values.Min();

    /// <summary>The date on which a zone is watered next; null where it is not within a year.</summary>
    public int? NextOf(Zone zone) => Firsts.Zones.TryGetValue(zone.Index, out var day) ? day : null;

    /// <summary>The date on which a schedule waters next; null where it does not within a year.</summary>
    public int? NextOf(Schedule schedule) => Firsts.Schedules.TryGetValue(schedule.Index, out var day) ? day : null;

    /// <summary>The runs of the passes of a date, in order of start.</summary>
    public ImmutableArray<NightRun> RunsOn(int day)
    {
        lock (_lock)
        {
            if (!_byDay.TryGetValue(day, out var runs)) _byDay[day] = runs = Found(day);
            return runs;
        }
    }

    /// <summary>The days of a chart, each from noon to noon, that hold the passes of a date.</summary>
    public ChartSpan SpanOf(int day)
    {
        var clock = new ZoneClock(site.TimeZone);
        var runs = RunsOn(day);
        var (first, last) = runs.IsEmpty ? (day, day) : (NightAt(runs.Min(run => run.Run.Start)), NightAt(runs.Max(run => run.Run.End) - 1));
        return new ChartSpan(CivilDate.FromDayNumber(first).ToLocalDate(), Math.Clamp(last - first + 1, 1, Limits.ChartDays));

        int NightAt(long instant)
        {
            var at = clock.At(instant);
            return at.SecondOfDay < ZoneClock.SecondsInDay / 2 ? at.Day - 1 : at.Day;
        }
    }

    /// <summary>The work that one more answer may take.</summary>
    public WorkBudget Budget() => new(Limits.CheckWorkOf(site.SourceLength) / ShareOfCheck);

    private ImmutableArray<NightRun> Found(int day)
    {
        var date = CivilDate.FromDayNumber(day).ToLocalDate();
        var timetable = Timetable.Of(site, new Horizon(date.PlusDays(-DaysBeside), date.PlusDays(DaysBeside)), Budget());
        try
        {
            return [.. timetable.Runs().Where(run => run.Day == day)
                .Select(run => new NightRun(run, timetable.StepOf(run.Schedule, run.Step), timetable.StepPath(run)))];
        }
        catch (WorkUsedUpException)
        {
            return [];
        }
    }

    private (Dictionary<int, int> Zones, Dictionary<int, int> Schedules, LocalDate Until) Firsts
    {
        get
        {
            lock (_lock) return _firsts ??= Search();
        }
    }

    /// <summary>Goes ahead until everything has been met.</summary>
    private (Dictionary<int, int> Zones, Dictionary<int, int> Schedules, LocalDate Until) Search()
    {
        var (zones, schedules) = (new Dictionary<int, int>(), new Dictionary<int, int>());
        var horizon = Horizon.YearFrom(Today);
        var until = horizon.Until;
        var timetable = Timetable.WithWhatIsUnderWay(site, horizon, Budget());
        var most = site.Schedules.Count(schedule => !schedule.IsManual);
        try
        {
            foreach (var run in timetable.Runs())
            {
                if (run.End <= Now) continue;
                zones.TryAdd(run.Zone, run.Day);
                schedules.TryAdd(run.Schedule, run.Day);
                if (zones.Count == site.Zones.Length && schedules.Count == most) break;
            }
        }
        catch (WorkUsedUpException cause)
        {
            if (cause.ReachedDay is { } day) until = CivilDate.FromDayNumber(day).ToLocalDate();
        }

        return (zones, schedules, until);
    }
}
