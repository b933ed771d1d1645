using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Linting.Proof;

/// <summary>A start at a time of the clock, which is the same on every date: only the dates and the lengths of its passes vary.</summary>
internal sealed class SteadyStart
{
    private readonly SimulationContext _context;
    private readonly Start _start;
    private readonly Dictionary<(ClaimKind Kind, PassPlan Plan), Claims> _claims = [];
    private readonly Dictionary<ClaimKind, ImmutableArray<Claims>> _after = [];
    private DayBits? _days;

    private SteadyStart(SimulationContext context, Schedule schedule, Start start)
    {
        (_context, Schedule, _start) = (context, schedule, start);
        Cycles = DayCycle.Of(schedule, start, context.Site.Effective);
    }

    /// <summary>Its schedule.</summary>
    public Schedule Schedule { get; }

    /// <summary>Its days as cycles, where they are.</summary>
    public ImmutableArray<DayCycle>? Cycles { get; }

    /// <summary>Whether its days were worked out before.</summary>
    public bool HasDays => _days is not null;

    /// <summary>The starts of a schedule; none when it has no calendar, and null when one of them moves with the sun or another schedule.</summary>
    public static ImmutableArray<SteadyStart>? Of(SimulationContext context, Schedule schedule)
    {
        if (schedule.IsManual) return [];
        var isSteady = schedule.Starts.All(start => ClockOf(start) is not null)
            && schedule.Repeat is null or RepeatTimes or RepeatUntil { Until: ClockMoment }
            && schedule.Cut is null or { At: ClockMoment };
        return isSteady ? [.. schedule.Starts.Select(start => new SteadyStart(context, schedule, start))] : null;
    }

    /// <summary>How many runs its passes of a date have at most: what working out their claims costs.</summary>
    public long RunsOfADate
    {
        get
        {
            var plan = _context.Timetable.LongestPlanOf(Schedule.Index);
            var (first, last, every) = PassesOf(plan);
            return plan.Runs.Length * (Math.Max(0, (last - first) / every) + 1);
        }
    }

    /// <summary>The dates on which it is due in a stretch, always the same one.</summary>
    public DayBits DaysOver(int first, int length) =>
        _days ??= DayPattern.Of(Schedule, _context.Site.Effective).NarrowedTo(_start.On).Over(first, length);

    /// <summary>What its passes claim after the horizon: one entry where they are as long on every date.</summary>
    public ImmutableArray<Claims> After(ClaimKind kind)
    {
        if (!_after.TryGetValue(kind, out var claims))
            _after[kind] = claims = [.. _context.Timetable.PlansAfter(Schedule.Index).Select(plan => ClaimsOf(kind, plan))];
        return claims;
    }

    /// <summary>What its passes of a date claim, from the midnight that begins the date, by the clock.</summary>
    public Claims On(ClaimKind kind, int day) => ClaimsOf(kind, _context.Timetable.PlanOn(Schedule.Index, day));

    /// <summary>When its first pass of a date starts, from the midnight that begins the date, by the clock.</summary>
    public long FirstOn(int day) => PassesOf(_context.Timetable.PlanOn(Schedule.Index, day)).First;

    private static int? ClockOf(Start start) => start switch
    {
        StartAt { Moment: ClockMoment at } => at.SecondOfDay,
        FinishBy { Moment: ClockMoment by } => by.SecondOfDay,
        _ => null,
    };

    private Claims ClaimsOf(ClaimKind kind, PassPlan plan)
    {
        if (!_claims.TryGetValue((kind, plan), out var claims)) _claims[(kind, plan)] = claims = new Claims(Calculate(kind, plan));
        return claims;
    }

    private IEnumerable<(int What, long From, long To)> Calculate(ClaimKind kind, PassPlan plan)
    {
        var cut = Schedule.Cut is { At: ClockMoment at } line ? at.SecondOfDay + (line.NextDay ? ZoneClock.SecondsInDay : 0) : long.MaxValue;
        var (first, last, every) = PassesOf(plan);
        for (var start = first; start <= last; start += every)
        {
            foreach (var (what, from, to) in kind.Of(plan)) yield return (what, start + from, Math.Min(start + to, cut));
        }
    }

    /// <summary>When the first and the last pass start, and the time from one to the next.</summary>
    private (long First, long Last, long Every) PassesOf(PassPlan plan)
    {
        long clock = ClockOf(_start)!.Value;
        var every = Schedule.Repeat?.Every.WholeSeconds() ?? 1;
        var span = Schedule.Repeat is RepeatTimes times ? every * (times.Passes - 1) : 0;
        if (_start is FinishBy) return (clock - span - plan.Seconds, clock - plan.Seconds, every);
        var last = Schedule.Repeat is RepeatUntil { Until: ClockMoment until } line
            ? until.SecondOfDay + (line.NextDay ? ZoneClock.SecondsInDay : 0)
            : clock + span;
        return (clock, last, every);
    }
}
