using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using WaterScript.Linting.Proof;
using WaterScript.Linting.Rules.Plants;
using WaterScript.Linting.Rules.Restrictions;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Engine;

/// <summary>
/// What all checks of one site share: the site, the dates that are looked at, and what is calculated once for several. It belongs to one thread at a
/// time, as its timetable does.
/// </summary>
internal sealed class LintContext(Timetable timetable, Schedule? manual = null)
{
    /// <summary>Start of the manual pass.</summary>
    private readonly long _start = manual is null ? 0 : timetable.Passes().FirstOrDefault().Start;

    /// <summary>The site.</summary>
    public Site Site => Timetable.Site;

    /// <summary>The dates that are looked at.</summary>
    public Horizon Horizon => Timetable.Horizon;

    /// <summary>What the site does on them.</summary>
    public Timetable Timetable { get; } = timetable;

    /// <summary>The manual schedule of which one pass is looked at, on no date in particular; null for all that have a calendar.</summary>
    public Schedule? Manual { get; } = manual;

    /// <summary>Whether it is a site as it might be, looked at to see what an edit would bring.</summary>
    public bool IsTrial { get; init; }

    /// <summary>Whether it ends before the dates that were asked for do, at the limit of work.</summary>
    public bool IsCut { get; init; }

    /// <summary>Start of the latest run whose outputs were looked at, in Unix seconds.</summary>
    public long LastRun { get; set; }

    /// <summary>The longest time from the start of a pass to the end of a run of it, of the runs so far, in seconds.</summary>
    public long LongestPass { get; private set; }

    /// <summary>Takes note of how far a run is from the start of its pass.</summary>
    public void Reach(in Run run) => LongestPass = Math.Max(LongestPass, run.End - run.PassStart);

    /// <summary>Counts the work of looking at something; to be told by rules that look at much at once.</summary>
    /// <param name="units">The work, 0 or more.</param>
    /// <exception cref="WorkUsedUpException">There was too much.</exception>
    public void Spend(long units) => Timetable.Budget?.Spend(units);

    /// <summary>Counts work that a schedule asks for.</summary>
    /// <param name="units">The work, 0 or more.</param>
    /// <param name="schedule">Its index.</param>
    /// <exception cref="WorkUsedUpException">There was too much.</exception>
    public void Spend(long units, int schedule) => Timetable.Budget?.Spend(units, schedule);

    /// <summary>How depths of water are said.</summary>
    public DepthWords Depths { get; } = new(timetable.Site);

    /// <summary>Where steps are written.</summary>
    public StepPlaces Steps { get; } = new(timetable);

    /// <summary>How many runs there are; known when the walk is over.</summary>
    public long Runs { get; set; }

    /// <summary>Who asked for what is open.</summary>
    public StepOrigins Origins => field ??= new StepOrigins(Site);

    /// <summary>What is due and does not come; complete when the walk is over.</summary>
    public SkippedWater Skipped { get; } = new();

    /// <summary>What there is to know about single dates; complete when the walk is over.</summary>
    public DayNotes DayNotes { get; } = new();

    /// <summary>What passes can ask of zones.</summary>
    public ZonePlans Plans => field ??= new ZonePlans(Timetable);

    /// <summary>Runs that want one zone at once; complete when the walk is over.</summary>
    public ZoneMeetings ZoneMeetings => field ??= new ZoneMeetings(Site, Plans, Spend);

    /// <summary>Passes of one schedule that begin before another is over; complete when the walk is over.</summary>
    public PassMeetings PassMeetings => field ??= new PassMeetings(this);

    /// <summary>How long each zone with plants is watered on each date; complete when the walk is over.</summary>
    public PlantWater Water => field ??= new PlantWater(Site);

    /// <summary>What zones get against what their plants want; asked for when the walk is over.</summary>
    public DemandMet DemandMet => field ??= new DemandMet(this);

    /// <summary>What breaks restrictions; complete when the walk is over.</summary>
    public RestrictionMonitor Restrictions => field ??= new RestrictionMonitor(Timetable);

    /// <summary>Finds what comes after the horizon; to be asked when the walk is over.</summary>
    public WholeCycle WholeCycle => field ??= new WholeCycle(this);

    /// <summary>The site's wall clock, in day numbers.</summary>
    public ZoneClock WallClock { get; } = new(timetable.Site.TimeZone);

    /// <summary>What may still be tried; contexts of one site share it.</summary>
    public TrialBudget Trials { get; init; } = new();

    /// <summary>The same dates, or the same manual pass, of a site as it might be.</summary>
    /// <param name="site">The site: the same, but for what is tried.</param>
    public LintContext TryOut(Site site) => Manual is { } manual
        ? new LintContext(TimetableOf(site, site.Schedules[manual.Index]), site.Schedules[manual.Index]) { IsTrial = true }
        : new LintContext(Timetable.Of(site, Horizon)) { IsTrial = true };

    /// <summary>One pass of a manual schedule.</summary>
    public static Timetable TimetableOf(Site site, Schedule manual, WorkBudget? budget = null) => Timetable.OfOnePass(site, manual, site.Effective.At(LocalTime.Noon), budget);

    /// <summary>Counts a trial, for which all runs are calculated again; false when there were too many.</summary>
    public bool MayTry() => !IsCut && Trials.Spend(Runs);

    /// <summary>The line that the start of a run's pass is calculated from.</summary>
    public Location StartOf(in Run run) => StartOf(run.Schedule, run.StartNumber);

    /// <summary>A start of a schedule as written; the schedule itself where it has none of that number.</summary>
    public Location StartOf(int schedule, int number) =>
        Site.Schedules[schedule].Starts.FirstOrDefault(start => start.Number == number)?.Origin ?? Site.Schedules[schedule].Origin;

    /// <summary>The zone or device that is switched, as people call it.</summary>
    public string NameOf(in Switching switching) => switching.Zone >= 0 ? Site.Zones[switching.Zone].DisplayName : Site.Devices[switching.Device].DisplayName;

    /// <summary>The local date of an instant, in days since 1970-01-01.</summary>
    public int DayOf(long instant) => WallClock.At(instant).Day;

    /// <summary>The site's clock at an instant in Unix seconds.</summary>
    public LocalDateTime ClockAt(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(Site.TimeZone).LocalDateTime;

    /// <summary>The time of day of an instant in Unix seconds: <c>06:00</c>.</summary>
    public string Time(long instant) => MomentWords.Time(ClockAt(instant).TimeOfDay);

    /// <summary>An instant in Unix seconds as findings say it: <c>Tue 15 Sep 2026 06:00</c>, or how long after the start of a manual pass.</summary>
    public string Moment(long instant) => Manual is null ? MomentWords.Moment(ClockAt(instant)) : AfterStart(instant);

    /// <summary>Says when something happens, in a finding whose details are in place.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="first">The first time, in Unix seconds.</param>
    /// <param name="last">The last time.</param>
    /// <param name="times">How often.</param>
    /// <param name="days">On how many dates.</param>
    public Finding Happening(Finding finding, long first, long last, long times, long days) => Manual is null
        ? finding with { Happens = new Occurrences(ClockAt(first), ClockAt(last), times, days) }
        : finding with { Details = $"In a pass of \"{Manual.Name}\", {AfterStart(first)}{(times > 1 ? $" for the first time, {MomentWords.Times(times)}" : "")}.\n{finding.Details}" };

    /// <summary>Indexes of the schedules with a calendar that share something of their zones, for each such thing.</summary>
    /// <param name="shared">The thing, by its index; null for a zone that does not count.</param>
    public IEnumerable<ImmutableArray<int>> SchedulesBy(Func<Zone, int?> shared) => Site.Schedules
        .Where(schedule => !schedule.IsManual)
        .SelectMany(schedule => Timetable.LongestPlanOf(schedule.Index).Runs.Select(run => shared(Site.Zones[run.Zone])).Distinct().Select(thing => (thing, schedule.Index)))
        .Where(entry => entry.thing is not null)
        .GroupBy(entry => entry.thing)
        .Select(group => group.Select(entry => entry.Index).ToImmutableArray());

    private string AfterStart(long instant) => instant == _start ? "at its start" : $"{Phrases.Length(instant - _start)} after its start";
}
