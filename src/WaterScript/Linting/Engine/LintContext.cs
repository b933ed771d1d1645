using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using WaterScript.Linting.Proof;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Restrictions;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Engine;

/// <summary>
/// What all rules of one site share beside its simulation: what several of them observe, what may be tried, and how they say when something happens.
/// </summary>
internal sealed class LintContext(Timetable timetable, Schedule? manual = null) : SimulationContext(timetable, manual)
{
    /// <summary>Start of the manual pass.</summary>
    private readonly long _start = manual is null ? 0 : timetable.Passes().FirstOrDefault().Start;

    /// <summary>Whether it is a site as it might be, looked at to see what an edit would bring.</summary>
    public bool IsTrial { get; init; }

    /// <summary>Whether it ends before the dates that were asked for do, at the limit of work.</summary>
    public bool IsCut { get; init; }

    /// <summary>Whether all of the site has been checked, and only what happens on these dates is asked for.</summary>
    public bool IsRepeated { get; init; }

    /// <summary>How depths of water are said.</summary>
    public DepthWords Depths { get; } = new(timetable.Site);

    /// <summary>What there is to know about single dates; complete when the walk is over.</summary>
    public DayNotes DayNotes { get; } = new();

    /// <summary>Zones whose flow is not given: what rests on the flow of all zones of a supply cannot be judged where these are among them.</summary>
    public IReadOnlyList<Zone> WithoutFlow => field ??= [.. Site.Zones.Where(zone => !zone.IsSpare && zone.LitresPerMinute is null)];

    /// <summary>Runs that use one zone at once; complete when the walk is over.</summary>
    public ZoneMeetings ZoneMeetings => field ??= new ZoneMeetings(Site, Plans, Spend);

    /// <summary>Passes of one schedule that begin before another is over; complete when the walk is over.</summary>
    public PassMeetings PassMeetings => field ??= new PassMeetings(this);

    /// <summary>What breaks restrictions; complete when the walk is over.</summary>
    public RestrictionMonitor Restrictions => field ??= new RestrictionMonitor(Timetable);

    /// <summary>How long each zone with plants is watered on each date; complete when the walk is over.</summary>
    public PlantWater Water => field ??= new PlantWater(Site);

    /// <summary>What rules share of the walk: each has to see it before the rules do.</summary>
    public IEnumerable<ITimelineObserver> Observers => [DayNotes, ZoneMeetings, PassMeetings, Restrictions, Water];

    /// <summary>What zones get against what their plants need; to be asked when the walk is over.</summary>
    public DemandMet DemandMet => field ??= new DemandMet(Site, Horizon, Water);

    /// <summary>Finds what comes after the horizon; to be asked when the walk is over.</summary>
    public WholeCycle WholeCycle => field ??= new WholeCycle(this, ZoneMeetings, isPossible: !IsCut && !IsRepeated);

    /// <summary>What may still be tried; contexts of one site share it.</summary>
    public TrialBudget Trials { get; init; } = new();

    /// <summary>The same dates, or the same manual pass, of a site as it might be.</summary>
    /// <param name="site">The site: the same, but for what is tried.</param>
    public LintContext TryOut(Site site) => Manual is { } manual
        ? new LintContext(TimetableOf(site, site.Schedules[manual.Index]), site.Schedules[manual.Index]) { IsTrial = true }
        : new LintContext(Timetable.Of(site, Horizon)) { IsTrial = true };

    /// <summary>One pass of a manual schedule.</summary>
    public static Timetable TimetableOf(Site site, Schedule manual, WorkBudget? budget = null) =>
        Timetable.OfOnePass(site, manual, site.Effective.At(LocalTime.Noon), budget);

    /// <summary>Counts a trial, for which all runs are calculated again; false when there were too many.</summary>
    public bool MayTry() => !IsCut && !IsRepeated && Trials.Spend(Runs);

    /// <summary>The zone or device that is switched, as the file names it.</summary>
    public string NameOf(in Switching switching) => switching.Zone >= 0 ? Site.Zones[switching.Zone].Name : Site.Devices[switching.Device].Name;

    /// <summary>The time of day of an instant in Unix seconds: <c>06:00</c>.</summary>
    public string Time(long instant) => MomentWords.Time(ClockAt(instant).TimeOfDay);

    /// <summary>An instant in Unix seconds as findings say it: <c>Tue 15 Sep 2026 06:00</c>, or how long after the start of a manual pass.</summary>
    public string Moment(long instant) => Manual is null ? MomentWords.Moment(ClockAt(instant)) : AfterStart(instant);

    /// <summary>Says when something happens, in a finding whose details are in place; of a manual schedule too.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="counter">When it happens.</param>
    public Finding Happening(Finding finding, OccurrenceCounter counter) => Manual is null
        ? finding with { Happens = counter.Happens(this) }
        : finding with
        {
            InPass = InPass(counter),
            Excess = finding.Excess ?? counter.Worst,
        };

    private string InPass(OccurrenceCounter counter) => counter.Times > 1
        ? $"In each pass of {Manual!.Name}: first {AfterStart(counter.First)}; {MomentWords.Times(counter.Times)}."
        : $"In each pass of {Manual!.Name}, {AfterStart(counter.First)}.";

    private string AfterStart(long instant) => instant == _start ? "at its start" : $"{Phrases.Length(instant - _start)} after its start";
}
