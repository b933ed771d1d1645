using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Tests.Simulation;

/// <summary>A run as the reference has it.</summary>
internal readonly record struct ReferenceRun(
    long Start, long End, long Overlap, int Zone, string Schedule, LocalDate Day, int StartNumber, int Pass, long PassStart, string Step, string? Injector)
{
    /// <summary>Seconds for which its part doses: null all the way, 0 not at all, since it does not fit.</summary>
    public long? Dose { get; init; }

    /// <summary>Which part of its pass it is of, and for how long that doses; only until that is settled.</summary>
    public (int Part, long? Dose) Dosing { get; init; }
}

/// <summary>
/// All runs of a site, worked out by brute force from the words of the language: every date, every schedule, every start.
/// It shares nothing with the compiler but the bound site and the times of the sun.
/// </summary>
internal sealed class ReferenceRuns
{
    /// <summary>Passes can start so many days from their date: chains of schedules, long steps that finish by a time, days of delay.</summary>
    private const int Reach = 12;

    private static readonly LocalDate Epoch = new(1970, 1, 1);
    private static readonly ZoneLocalMappingResolver ByRfc5545 =
        Resolvers.CreateMappingResolver(Resolvers.ReturnEarlier, (local, zone, before, _) => new OffsetDateTime(local, before.WallOffset).InZone(zone));

    private readonly Site _site;
    private readonly SunTimes? _sun;
    private readonly Dictionary<(string Schedule, LocalDate Day), List<ReferencePass>> _passes = [];
    private readonly Dictionary<(string Schedule, decimal Percent), ReferencePlan> _plans = [];

    private readonly ReferenceKeeping? _keeping;

    private ReferenceRuns(Site site, LocalDate until)
    {
        _site = site;
        _sun = site.Position is { } position ? SunTimes.Of(position, new ZoneClock(site.TimeZone)) : null;
        if (site.Schedules.Any(schedule => schedule.Keeps.Length > 0)) _keeping = new ReferenceKeeping(site, () => Planned(site, until));
    }

    /// <summary>The runs of the passes that start in a horizon, in no order.</summary>
    public static List<ReferenceRun> Of(Site site, Horizon horizon)
    {
        var reference = new ReferenceRuns(site, horizon.Until.PlusDays(Reach));
        var from = site.TimeZone.AtStartOfDay(horizon.From).ToInstant().ToUnixTimeSeconds();
        var until = site.TimeZone.AtStartOfDay(horizon.Until).ToInstant().ToUnixTimeSeconds();
        var hasAmounts = reference._keeping?.HasAmounts == true;
        var first = hasAmounts && site.Effective < horizon.From ? site.Effective : horizon.From;
        var passes = reference.PassesFrom(first.PlusDays(-Reach), horizon.Until.PlusDays(Reach)).ToList();
        var runs = passes.Where(pass => hasAmounts || (from <= pass.Start && pass.Start < until)).SelectMany(pass => pass.Runs).ToList();
        if (hasAmounts) runs = reference._keeping!.WithinAmounts(runs);
        return [.. reference.WithDoses([.. runs.Where(run => from <= run.PassStart && run.PassStart < until)])];
    }

    private IEnumerable<ReferencePass> PassesFrom(LocalDate first, LocalDate end)
    {
        for (var date = first; date < end; date = date.PlusDays(1))
        {
            foreach (var pass in _site.Schedules.SelectMany(schedule => PassesOf(schedule, date))) yield return pass;
        }
    }

    /// <summary>All that is due from the effective date on, were nothing held and nothing kept to.</summary>
    private static List<ReferenceRun> Planned(Site site, LocalDate until)
    {
        var free = site with { Holds = [], Schedules = [.. site.Schedules.Select(schedule => schedule with { Keeps = [] })] };
        return [.. new ReferenceRuns(free, until).PassesFrom(site.Effective, until.PlusDays(Reach)).SelectMany(pass => pass.Runs)];
    }

    /// <summary>The passes of a date of which some run is left.</summary>
    private List<ReferencePass> PassesOf(Schedule schedule, LocalDate date)
    {
        if (!_passes.TryGetValue((schedule.Name, date), out var passes))
            _passes[(schedule.Name, date)] = passes = [.. CalculatePasses(schedule, date).Where(pass => pass.Runs.Count > 0)];
        return passes;
    }

    private List<ReferencePass> PassesOf(string name, LocalDate date) => PassesOf(_site.Schedules.Single(schedule => schedule.Name == name), date);

    private bool HasRun(string name, LocalDate date) => PassesOf(name, date).Count > 0;

    private IEnumerable<ReferencePass> CalculatePasses(Schedule schedule, LocalDate date)
    {
        if (schedule.IsManual || !ReferenceDays.IsDue(_site, schedule, date)) yield break;
        if (_site.ClosedSeasons.Any(closed => ReferenceDays.Holds(closed.Days, date, anchor: null))) yield break;
        var followed = schedule.Starts.OfType<StartAfter>().Select(start => start.Other).ToList();
        if (schedule.Days.Length == 0 && !followed.Exists(other => HasRun(other, date))) yield break;
        var effective = _site.TimeZone.AtStartOfDay(_site.Effective).ToInstant().ToUnixTimeSeconds();
        var plan = PlanOf(schedule, date);
        var firsts = new HashSet<long>();
        foreach (var start in schedule.Starts)
        {
            if (start.On.Length > 0 && !ReferenceDays.HoldsAny(start.On, date)) continue;
            if (MomentOf(start, date) is not { } moment) continue;
            var first = start is FinishBy ? moment - plan.Seconds - LastPassAfterFirst(schedule) : moment;
            if (!firsts.Add(first)) continue;
            foreach (var (index, passStart) in PassStarts(schedule, date, first).Index())
            {
                if (passStart < effective) continue;
                var end = passStart + plan.Seconds;
                yield return new ReferencePass(passStart, Math.Min(end, CutOf(schedule, date) ?? end),
                    [.. RunsOf(schedule, date, plan, start, index + 1, passStart)]);
            }
        }
    }

    private ReferencePlan PlanOf(Schedule schedule, LocalDate date)
    {
        var percent = PercentOf(schedule, date);
        if (!_plans.TryGetValue((schedule.Name, percent), out var plan)) _plans[(schedule.Name, percent)] = plan = ReferencePlan.Of(schedule.Steps, percent);
        return plan;
    }

    private decimal PercentOf(Schedule schedule, LocalDate date)
    {
        if (schedule.IsExtra || (schedule.Scale ?? _site.Scale) is not { } use) return 100;
        if (use.Percent is { } percent) return percent;
        return _site.Scales.Single(scale => scale.Name == use.Name) switch
        {
            MonthlyScale monthly => monthly.Percents[date.Month - 1] ?? 100,
            DatedScale dated => dated.Since.Where(since => since.From <= date).Select(since => since.Percent).LastOrDefault(100),
            ClimateScale => CropDemand.Shares(Waterings.ZonesIn(schedule.Steps), MonthWeather.YearOf(_site))[date.Month - 1] ?? 100,
            var other => throw new NotSupportedException(other.GetType().Name),
        };
    }

    private long? MomentOf(Start start, LocalDate date) => start switch
    {
        StartAt at => InstantOf(at.Moment, date),
        FinishBy by => InstantOf(by.Moment, date),
        StartAfter after when HasRun(after.Other, date) => PassesOf(after.Other, date).MaxBy(pass => pass.Start)!.End + (long)after.Delay.TotalSeconds,
        _ => null,
    };

    private long? InstantOf(Moment moment, LocalDate date) => moment switch
    {
        ClockMoment clock => InstantOf(date.AtMidnight().PlusSeconds(clock.SecondOfDay)),
        SunMoment sun => _sun!.EventOn(Period.DaysBetween(Epoch, date), sun.Event) + (long)sun.Offset.TotalSeconds,
        _ => throw new NotSupportedException(moment.GetType().Name),
    };

    private long InstantOf(LocalDateTime local) => _site.TimeZone.ResolveLocal(local, ByRfc5545).ToInstant().ToUnixTimeSeconds();

    private long? CutOf(Schedule schedule, LocalDate date) =>
        schedule.Cut is { } cut ? InstantOf(cut.At, cut.NextDay ? date.PlusDays(1) : date) : null;

    private static long LastPassAfterFirst(Schedule schedule) =>
        schedule.Repeat is RepeatTimes times ? (times.Passes - 1) * (long)times.Every.TotalSeconds : 0;

    private IEnumerable<long> PassStarts(Schedule schedule, LocalDate date, long first)
    {
        switch (schedule.Repeat)
        {
            case null:
                yield return first;
                break;
            case RepeatTimes times:
                for (var pass = 0; pass < times.Passes; pass++) yield return first + (pass * (long)times.Every.TotalSeconds);
                break;
            case RepeatUntil until:
                var last = InstantOf(until.Until, until.NextDay ? date.PlusDays(1) : date);
                for (var start = first; start <= last; start += (long)until.Every.TotalSeconds) yield return start;
                break;
        }
    }

    /// <summary>
    /// Doses of a size of their own: such a one must fit into the shortest that is left of the runs of its part, with the water before and after it.
    /// </summary>
    private IEnumerable<ReferenceRun> WithDoses(List<ReferenceRun> runs)
    {
        var shortest = runs.GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass, run.Dosing.Part))
            .ToDictionary(part => part.Key, part => part.Min(run => run.End - run.Start));
        foreach (var run in runs)
        {
            var settled = run with { Dosing = default };
            if (run is not { Injector: { } name, Dosing.Dose: { } dose })
            {
                yield return settled;
                continue;
            }

            var injector = _site.Devices.Single(device => device.Name == name);
            var needed = dose + (long)(injector.After?.Value.TotalSeconds ?? 0) + (long)(injector.Rinse?.Value.TotalSeconds ?? 0);
            var isEnough = needed <= shortest[(run.Schedule, run.Day, run.StartNumber, run.Pass, run.Dosing.Part)];
            yield return settled with { Dose = isEnough ? dose : 0 };
        }
    }

    private IEnumerable<ReferenceRun> RunsOf(
        Schedule schedule, LocalDate date, ReferencePlan plan, Start start, int pass, long passStart)
    {
        var cut = CutOf(schedule, date);
        foreach (var watering in plan.Waterings)
        {
            var from = passStart + watering.Start;
            var planned = passStart + watering.End;
            if (cut <= from) continue;
            if (EndUnderHolds(watering.Zone, from, Math.Min(planned, cut ?? planned)) is not { } to) continue;
            if (_keeping?.FirstHeld(schedule, watering.Zone.Index, from, to) is { } held) to = held;
            if (to <= from) continue;
            yield return new ReferenceRun(
                from, to, to == planned ? watering.Overlap : 0, watering.Zone.Index, schedule.Name, date, start.Number, pass, passStart, watering.Step,
                    watering.Injector)
            { Dosing = watering.Dosing };
        }
    }

    /// <summary>Where the holds let a run end; null when it starts inside one.</summary>
    private long? EndUnderHolds(Zone zone, long from, long to)
    {
        foreach (var hold in _site.Holds.Where(hold => hold.Zones.Length == 0 || hold.Zones.Contains(zone)))
        {
            var begins = InstantOf(hold.From);
            var ends = hold.For is { } length ? begins + (long)length.TotalSeconds : hold.Until is { } until ? InstantOf(until) : long.MaxValue;
            if (begins <= from && from < ends) return null;
            if (from < begins) to = Math.Min(to, begins);
        }

        return to;
    }

    /// <summary>A pass of which runs are left; its end is when its last step is over, or cut.</summary>
    private sealed record ReferencePass(long Start, long End, List<ReferenceRun> Runs);
}
