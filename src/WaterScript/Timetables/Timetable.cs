using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables.Keeping;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Timetables;

/// <summary>
/// The runs, openings and switchings of a site over a horizon. Nothing is expanded before it is asked for, and nothing is kept. It belongs to one
/// thread at a time.
/// </summary>
internal sealed class Timetable
{
    private readonly SchedulePlans[] _plans;
    private readonly MomentReader _moments;
    private readonly CancellationFilter _cancellationFilter;
    private readonly Pass? _onePass;
    private ImmutableArray<SchedulePasses>? _oneByOne;

    private Timetable(Site site, Horizon horizon, Pass? onePass, WorkBudget? budget, bool byAmounts = true)
    {
        Budget = budget;
        Site = site;
        Horizon = horizon;
        _onePass = onePass;
        _moments = MomentReader.For(site);
        var keptHours = onePass is null
            ? KeptHours.Of(site, _moments, dates => Planned(site, dates, budget), byAmounts ? dates => ByHours(site, dates, budget) : null, budget)
            : null;
        _cancellationFilter = new CancellationFilter(site, onePass is null ? Holds.Of(site, _moments.Clock) : Holds.None, budget, keptHours);
        var order = new RunOrder(site);
        _plans = [.. site.Schedules.Select(schedule => new SchedulePlans(schedule, site, order, budget))];
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>Counts what is expanded; null where nobody counts.</summary>
    public WorkBudget? Budget { get; }

    /// <summary>The dates covered.</summary>
    public Horizon Horizon { get; }

    /// <summary>All schedules with a calendar, over a horizon.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates.</param>
    /// <param name="budget">Counts what is expanded, which then throws when it is used up; null to expand without an end.</param>
    /// <exception cref="ArgumentNullException">The site or the horizon is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The horizon ends before it begins.</exception>
    public static Timetable Of(Site site, Horizon horizon, WorkBudget? budget = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(horizon);
        ArgumentOutOfRangeException.ThrowIfLessThan(horizon.Until, horizon.From, nameof(horizon));
        return new Timetable(site, horizon, onePass: null, budget);
    }

    /// <summary>One pass of a schedule, manual or not, at a moment of the wall clock. Holds and closed seasons do not touch it.</summary>
    /// <param name="site">The site.</param>
    /// <param name="schedule">One of its schedules.</param>
    /// <param name="at">When; a moment that the clock skips or shows twice is read as a start at it would be.</param>
    /// <param name="budget">Counts what is expanded; null to expand without an end.</param>
    /// <exception cref="ArgumentNullException">The site or the schedule is null.</exception>
    /// <exception cref="ArgumentException">The schedule is one of another site.</exception>
    public static Timetable OfOnePass(Site site, Schedule schedule, LocalDateTime at, WorkBudget? budget = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(schedule);
        if (schedule.Index >= site.Schedules.Length || !ReferenceEquals(site.Schedules[schedule.Index], schedule))
            throw new ArgumentException("It is not a schedule of this site.", nameof(schedule));
        var day = CivilDate.DayNumberOf(at.Date);
        var start = new ZoneClock(site.TimeZone).Read(day, (int)(at.TimeOfDay.TickOfDay / NodaConstants.TicksPerSecond)).Instant;
        return new Timetable(site, Horizon.DaysFrom(at.Date, 1), new Pass(start, schedule.Index, day, StartNumber: 0, Number: 1), budget);
    }

    /// <summary>
    /// The passes of which anything is left, in order of start, then of their schedule in the file; each enumeration expands anew.
    /// </summary>
    public IEnumerable<Pass> Passes() => DuePasses().Where(pass => _cancellationFilter.LeavesAnyOf(pass, PlanOf(pass)));

    /// <summary>
    /// The runs, in order of start, then controller, then output, then zone, then name of the schedule; each enumeration expands anew.
    /// </summary>
    /// <param name="skipped">Called with what is due and does not come; null when nobody asks.</param>
    public IEnumerable<Run> Runs(SkippedWater? skipped = null) => Runs(skipped, seeDay: null);

    /// <summary>The same runs; on the way, each date of each schedule is shown as <see cref="ScheduleDays"/> gives it.</summary>
    /// <param name="skipped">Called with what is due and does not come; null when nobody asks.</param>
    /// <param name="seeDay">Is shown the dates, some days before the runs get there; null when nobody asks.</param>
    internal IEnumerable<Run> Runs(SkippedWater? skipped, Action<ScheduleDay>? seeDay) =>
        RunStream.Of(DuePasses(seeDay), _plans, _cancellationFilter, skipped, Budget);

    /// <summary>
    /// The openings of zones, and of the pumps, masters and injectors that run because of them, in order of their beginning, then
    /// controller, then output; each enumeration expands anew.
    /// </summary>
    public IEnumerable<Opening> Openings() => OpeningsOf(Runs());

    /// <summary>The openings that runs of this timetable make, which are drawn one by one as the openings are.</summary>
    /// <param name="runs">All of <see cref="Runs(SkippedWater?)"/>, in their order.</param>
    public IEnumerable<Opening> OpeningsOf(IEnumerable<Run> runs) => OpeningStream.Of(
        Site, runs, _onePass is null ? _moments.Clock.StartOfDay(CivilDate.DayNumberOf(Horizon.From)) : long.MinValue, Budget);

    /// <summary>
    /// What each output does, in the order in which its controller does it: in order of the actual time, then controller; at one
    /// moment a controller closes before it opens. Each enumeration expands anew.
    /// </summary>
    public IEnumerable<Switching> Switchings() => SwitchingsOf(Openings());

    /// <summary>The switchings that openings of this timetable make, which are drawn one by one as the switchings are.</summary>
    /// <param name="openings">All of <see cref="Openings"/>, in their order.</param>
    public IEnumerable<Switching> SwitchingsOf(IEnumerable<Opening> openings) => SwitchingStream.Of(Site, openings, Budget);

    /// <summary>
    /// Each date of the horizon for each schedule with a calendar, by date, then in order of the file, with the passes that
    /// belong to that date, wherever they start.
    /// </summary>
    public IEnumerable<ScheduleDay> ScheduleDays()
    {
        var schedules = SchedulesWithCalendar();
        var end = CivilDate.DayNumberOf(Horizon.Until);
        for (var day = CivilDate.DayNumberOf(Horizon.From); day < end; day++)
        {
            foreach (var schedule in schedules) yield return schedule.ScheduleDay(day);
        }
    }

    /// <summary>The path of a run's step: <c>3.2</c>, or <c>3#2.1</c> inside a repetition.</summary>
    public string StepPath(in Run run) => StepPath(run.Schedule, run.Step);

    /// <summary>The path of a step of a schedule, by their indexes.</summary>
    internal string StepPath(int schedule, int step) => _plans[schedule].StepOf(step).Path;

    /// <summary>Whether a run is a piece of a cycle.</summary>
    internal bool IsPiece(in Run run) => _plans[run.Schedule].StepOf(run.Step).IsPiece;

    /// <summary>How long the pieces of a step are in a pass of a schedule at a share of the written times, in seconds.</summary>
    internal IEnumerable<long> PiecesOf(int schedule, WaterStep step, int zone, decimal percent)
    {
        var plans = _plans[schedule];
        return plans.At(percent).Runs.Where(run => run.Zone == zone && plans.StepOf(run.Step) is { IsPiece: true } of && of.Step == step)
            .Select(run => run.Seconds);
    }

    /// <summary>How long a pass lasts, pauses included, in seconds.</summary>
    public long SecondsOf(in Pass pass) => PlanOf(pass).Seconds;

    /// <summary>Whether the steps of a schedule water a zone at all.</summary>
    internal bool Waters(int schedule, int zone) => _plans[schedule].Waters(zone);

    /// <summary>The longest that any pass of a schedule lasts, in seconds.</summary>
    internal long LongestSecondsOf(int schedule) => _plans[schedule].LongestSeconds;

    /// <summary>The one pass that was asked for, outside any calendar; null when all schedules were.</summary>
    internal Pass? OnePass => _onePass;

    /// <summary>What a pass of a schedule does where it is longest.</summary>
    internal PassPlan LongestPlanOf(int schedule) => _plans[schedule].LongestPlan;

    /// <summary>
    /// What passes of a schedule do on any date, each plan once. The longest pass need not have the longest run: at a greater share a cycle
    /// may be cut into more and shorter pieces.
    /// </summary>
    internal IEnumerable<PassPlan> PlansOf(int schedule) => _plans[schedule].From(int.MinValue);

    /// <summary>What passes of a schedule do after the horizon, each plan once.</summary>
    internal IEnumerable<PassPlan> PlansAfter(int schedule) => _plans[schedule].From(CivilDate.DayNumberOf(Horizon.Until));

    /// <summary>A step of a schedule as it is written, by their indexes.</summary>
    internal WaterStep StepOf(int schedule, int step) => _plans[schedule].StepOf(step).Step;

    /// <summary>The passes of one schedule of which anything may be left, in order of start; each enumeration expands anew.</summary>
    internal IEnumerable<Pass> DuePassesOf(Schedule schedule) => _onePass is { } pass
        ? new[] { pass }.Where(only => only.Schedule == schedule.Index)
        : PassesOf([.. (_oneByOne ??= SchedulesWithCalendar()).Where(passes => passes.Schedule.Index == schedule.Index)]);

    /// <summary>What a pass does before anything is taken of it.</summary>
    internal PassPlan PlanOf(in Pass pass) => PlanOn(pass.Schedule, pass.Day);

    /// <summary>What a pass of a schedule does on a date, in days since 1970-01-01.</summary>
    internal PassPlan PlanOn(int schedule, int day) => _plans[schedule].On(day);

    /// <summary>The share of the written run times that a schedule gives on a date, in per cent.</summary>
    internal decimal PercentOn(int schedule, int day) => _plans[schedule].PercentOn(day);

    /// <summary>Whether a pass runs as planned.</summary>
    internal bool IsWhole(in Pass pass) => _cancellationFilter.TakesNothingOf(pass);

    /// <summary>The seconds that are left of a planned run of a pass; 0 when all is taken.</summary>
    internal long SecondsLeft(in Pass pass, in PlannedRun planned, SkippedWater? skipped = null) => _cancellationFilter.Keep(pass, planned, skipped);

    /// <summary>The same site from so many days before its horizon on that nothing which is under way at its beginning is missed.</summary>
    internal static Timetable WithWhatIsUnderWay(Site site, Horizon horizon, WorkBudget? budget = null) =>
        WithWhatIsUnderWay(site, horizon, budget, byAmounts: true);

    private static Timetable WithWhatIsUnderWay(Site site, Horizon horizon, WorkBudget? budget, bool byAmounts)
    {
        var longest = new Timetable(site, horizon, onePass: null, budget, byAmounts)._plans.Select(plan => plan.LongestSeconds).DefaultIfEmpty().Max();
        var from = horizon.From.PlusDays(-1 - (int)(longest / ZoneClock.SecondsInDay));
        return new Timetable(site, horizon with { From = from }, onePass: null, budget, byAmounts);
    }

    /// <summary>What would run were nothing held and nothing kept to.</summary>
    private static IEnumerable<Run> Planned(Site site, Horizon horizon, WorkBudget? budget) => WithWhatIsUnderWay(
        site with { Holds = [], Schedules = [.. site.Schedules.Select(schedule => schedule with { Keeps = [] })] }, horizon, budget, byAmounts: false).Runs();

    /// <summary>What runs by the dates and hours that schedules keep to, before the amounts of a day.</summary>
    private static IEnumerable<Run> ByHours(Site site, Horizon horizon, WorkBudget? budget) =>
        WithWhatIsUnderWay(site, horizon, budget, byAmounts: false).Runs();

    /// <summary>The passes of all schedules of which anything may be left, in order of start.</summary>
    internal IEnumerable<Pass> DuePasses(Action<ScheduleDay>? seeDay = null) => _onePass is { } pass ? [pass] : PassesOf(SchedulesWithCalendar(), seeDay);

    private IEnumerable<Pass> PassesOf(ImmutableArray<SchedulePasses> schedules, Action<ScheduleDay>? seeDay = null) =>
        PassStream.Of(schedules, _moments.Clock, CivilDate.DayNumberOf(Horizon.From), CivilDate.DayNumberOf(Horizon.Until), seeDay, Budget);

    private ImmutableArray<SchedulePasses> SchedulesWithCalendar()
    {
        var byName = new Dictionary<string, SchedulePasses>(StringComparer.Ordinal);
        foreach (var schedule in Site.Schedules.Where(schedule => !schedule.IsManual))
        {
            byName[schedule.Name] = new SchedulePasses(schedule, Site, _plans[schedule.Index], _moments, _cancellationFilter, name => byName[name], Budget);
        }

        return [.. byName.Values];
    }
}
