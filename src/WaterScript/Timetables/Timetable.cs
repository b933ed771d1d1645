using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// The runs, openings and switchings of a site over a horizon. Nothing is expanded before it is asked for, and nothing is kept. It belongs to one
/// thread at a time.
/// </summary>
public sealed class Timetable
{
    private readonly SchedulePlans[] _plans;
    private readonly MomentReader _moments;
    private readonly Keeper _keeper;
    private readonly Pass? _onePass;

    private Timetable(Site site, Horizon horizon, Pass? onePass)
    {
        Site = site;
        Horizon = horizon;
        _onePass = onePass;
        _moments = MomentReader.For(site);
        _keeper = new Keeper(site, onePass is null ? Holds.Of(site, _moments.Clock) : Holds.None);
        var order = new RunOrder(site);
        _plans = [.. site.Schedules.Select(schedule => new SchedulePlans(schedule, site, order))];
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>The dates covered.</summary>
    public Horizon Horizon { get; }

    /// <summary>All schedules with a calendar, over a horizon.</summary>
    public static Timetable Of(Site site, Horizon horizon) => new(site, horizon, onePass: null);

    /// <summary>One pass of a schedule, manual or not, at a moment of the wall clock. Holds and closed seasons do not touch it.</summary>
    /// <param name="site">The site.</param>
    /// <param name="schedule">One of its schedules.</param>
    /// <param name="at">When; a moment that the clock skips or shows twice is read as a start at it would be.</param>
    public static Timetable OfOnePass(Site site, Schedule schedule, LocalDateTime at)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(schedule);
        var day = CivilDate.DayNumberOf(at.Date);
        var start = new ZoneClock(site.TimeZone).Read(day, (int)(at.TimeOfDay.TickOfDay / NodaConstants.TicksPerSecond)).Instant;
        return new Timetable(site, Horizon.DaysFrom(at.Date, 1), new Pass(start, schedule.Index, day, StartNumber: 0, Number: 1));
    }

    /// <summary>
    /// The passes of which anything is left, in order of start, then of their schedule in the file; each enumeration expands anew.
    /// </summary>
    public IEnumerable<Pass> Passes() => DuePasses().Where(pass => _keeper.LeavesAnyOf(pass, PlanOf(pass)));

    /// <summary>
    /// The runs, in order of start, then controller, then output, then zone, then name of the schedule; each enumeration expands anew.
    /// </summary>
    /// <param name="taken">Is told what is due and does not come; null when nobody asks.</param>
    public IEnumerable<Run> Runs(Taken? taken = null) => RunStream.Of(DuePasses(), _plans, _keeper, taken);

    /// <summary>
    /// The openings of zones, and of the pumps, masters and injectors that run because of them, in order of their beginning, then
    /// controller, then output; each enumeration expands anew.
    /// </summary>
    public IEnumerable<Opening> Openings() => OpeningStream.Of(Site, Runs());

    /// <summary>
    /// What each output does, in the order in which its controller does it: in order of the actual time, then controller; at one
    /// moment a controller closes before it opens. Each enumeration expands anew.
    /// </summary>
    public IEnumerable<Switching> Switchings() => SwitchingStream.Of(Site, Openings());

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
    public string StepPath(in Run run) => _plans[run.Schedule].StepPaths[run.Step];

    /// <summary>How long a pass lasts, pauses included, in seconds.</summary>
    public long SecondsOf(in Pass pass) => PlanOf(pass).Seconds;

    private PassPlan PlanOf(in Pass pass) => _plans[pass.Schedule].On(pass.Day);

    private IEnumerable<Pass> DuePasses() => _onePass is { } pass
        ? [pass]
        : PassStream.Of(SchedulesWithCalendar(), _moments.Clock, CivilDate.DayNumberOf(Horizon.From), CivilDate.DayNumberOf(Horizon.Until));

    private ImmutableArray<SchedulePasses> SchedulesWithCalendar()
    {
        var byName = new Dictionary<string, SchedulePasses>(StringComparer.Ordinal);
        foreach (var schedule in Site.Schedules.Where(schedule => !schedule.IsManual))
        {
            byName[schedule.Name] = new SchedulePasses(schedule, Site, _plans[schedule.Index], _moments, _keeper, name => byName[name]);
        }

        return [.. byName.Values];
    }
}
