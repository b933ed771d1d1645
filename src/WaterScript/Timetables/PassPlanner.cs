using System.Globalization;
using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// Lays the steps of a schedule out on the seconds of one pass. The binder has refused steps that nest too deep or make too
/// many runs, so that this ends and fits in memory. It has also reported each amount that a zone cannot turn into a time and
/// each cycle whose lengths it cannot calculate: they come here only when somebody asks for the timetable despite that, and then
/// such amounts are left out and such zones are not split.
/// </summary>
internal sealed class PassPlanner
{
    private readonly Schedule _schedule;
    private readonly decimal _scalePercent;
    private readonly RunOrder _order;
    private readonly StepPaths _paths;
    private readonly List<PlannedRun> _runs = [];
    private readonly List<LeftOut> _leftOut = [];
    private readonly Dictionary<Supply, long> _supplyEnds = [];
    private readonly Dictionary<Supply, List<int>> _lastToEnd = [];
    private long _now;

    private PassPlanner(Schedule schedule, decimal scalePercent, RunOrder order, StepPaths paths)
    {
        _schedule = schedule;
        _scalePercent = scalePercent;
        _order = order;
        _paths = paths;
    }

    /// <summary>The plan of a pass.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="scalePercent">The share of the written times.</param>
    /// <param name="order">Orders runs that start together.</param>
    /// <param name="paths">Numbers the schedule's steps.</param>
    public static PassPlan Plan(Schedule schedule, decimal scalePercent, RunOrder order, StepPaths paths)
    {
        var planner = new PassPlanner(schedule, scalePercent, order, paths);
        planner.AddSteps(schedule.Steps, prefix: "");
        var runs = planner._runs.OrderBy(run => run.Offset).ThenBy(run => run.Rank);
        return new PassPlan([.. runs], [.. planner._leftOut], planner._now);
    }

    private void AddSteps(IReadOnlyList<Step> steps, string prefix)
    {
        for (var i = 0; i < steps.Count; i++) AddStep(steps[i], prefix + NumberOf(i));
    }

    private void AddStep(Step step, string path)
    {
        switch (step)
        {
            case WaterStep water:
                foreach (var part in water.Parts) Water(TimesOf(part, water), path);
                break;
            case TogetherStep together:
                Water(TimesOf(together), path);
                break;
            case PauseStep pause:
                _now += pause.Length.WholeSeconds();
                break;
            case RepeatStep repeat:
                for (var i = 1; i <= repeat.Times; i++) AddSteps(repeat.Steps, string.Create(CultureInfo.InvariantCulture, $"{path}#{i}."));
                break;
            case RunStep run:
                AddSteps(run.Sequence.Steps, path + ".");
                break;
            case CycleStep cycle:
                AddCycle(cycle, path);
                break;
        }
    }

    private List<ZoneTime> TimesOf(TogetherStep step) => [.. step.Waters.SelectMany(water => water.Parts.SelectMany(part => TimesOf(part, water)))];

    /// <summary>How long each zone of a part is watered; those of which scale and trim leave nothing are not among them.</summary>
    private List<ZoneTime> TimesOf(ZonePart part, WaterStep step)
    {
        var times = new List<ZoneTime>(part.Zones.Length);
        foreach (var zone in part.Zones)
        {
            if (WrittenSeconds(step, zone) is not { } written) continue;
            var seconds = SecondsOf(step, written, _scalePercent, zone);
            if (seconds == 0 || (!step.IsExact && ScaledTime.IsLeftOut(written, seconds, zone)))
                _leftOut.Add(new LeftOut(zone, step.Origin, ScaledTime.Rounded(written), seconds));
            else times.Add(new ZoneTime(zone, seconds, step));
        }

        return times;
    }

    /// <summary>What scale and trim make of a written time. Of an exact one a scale of 0 % leaves nothing, and any other all.</summary>
    internal static long SecondsOf(WaterStep step, decimal written, decimal scalePercent, Zone zone)
    {
        if (!step.IsExact) return ScaledTime.Of(written, scalePercent, zone);
        return scalePercent == 0 ? 0 : ScaledTime.Rounded(written);
    }

    /// <summary>The time of a zone before scale and trim; null where its amount cannot be turned into one.</summary>
    internal static decimal? WrittenSeconds(WaterStep step, Zone zone) =>
        step.For is { } length ? length.WholeSeconds() : step.With is { } amount ? RunTime.SecondsFor(amount, zone) : null;

    /// <summary>Waters zones together, as soon as the change-over lets them.</summary>
    /// <param name="times">The zones.</param>
    /// <param name="path">The path of the step that it is written in.</param>
    /// <param name="soak">Seconds that a piece of a cycle is to soak; null where it is none.</param>
    private void Water(List<ZoneTime> times, string path, long? soak = null)
    {
        if (times.Count == 0) return;
        ChangeOver(times);
        foreach (var (zone, seconds, step) in times)
        {
            var number = _paths.NumberOf(path, step, isPiece: soak is not null);
            _runs.Add(new PlannedRun(_now, seconds, Overlap: 0, zone.Index, number, _order.RankOf(zone, _schedule),
                _order.IndexOfInjector(step.Through), soak ?? 0));
            if (zone.Supply is { } supply) Ends(supply, _now + seconds);
        }

        _now += times.Max(time => time.Seconds);
    }

    /// <summary>Round by round, each piece as soon as its zones have soaked since their last ones in this block.</summary>
    private void AddCycle(CycleStep cycle, string path)
    {
        var units = new List<CycleUnit>();
        AddUnits(cycle, cycle.Steps, prefix: "", units);
        var soaked = new Dictionary<int, long>();
        var rounds = units.Select(unit => unit.Pieces).DefaultIfEmpty().Max();
        for (var round = 1L; round <= rounds; round++)
        {
            foreach (var unit in units.Where(unit => unit.Pieces >= round))
            {
                var times = unit.TimesIn(round);
                _now = Math.Max(_now, times.Max(time => soaked.GetValueOrDefault(time.Zone.Index)));
                var ends = _runs.Count;
                Water(times, string.Create(CultureInfo.InvariantCulture, $"{path}#{round}.{unit.Path}"), unit.Soak);
                for (var i = ends; i < _runs.Count; i++) soaked[_runs[i].Zone] = _runs[i].Offset + _runs[i].Seconds + unit.Soak;
            }
        }
    }

    private void AddUnits(CycleStep cycle, IReadOnlyList<Step> steps, string prefix, List<CycleUnit> units)
    {
        for (var i = 0; i < steps.Count; i++)
        {
            var path = prefix + NumberOf(i);
            if (steps[i] is RunStep run) AddUnits(cycle, run.Sequence.Steps, path + ".", units);
            if (steps[i] is TogetherStep together && TimesOf(together) is { Count: > 0 } all) units.Add(new CycleUnit(cycle, path, all));
            if (steps[i] is not WaterStep water) continue;
            foreach (var part in water.Parts)
            {
                if (TimesOf(part, water) is { Count: > 0 } times) units.Add(new CycleUnit(cycle, path, times));
            }
        }
    }

    /// <summary>Where a part before has just ended on a supply that these zones draw from too: waits for its gap, or keeps it open for its overlap.</summary>
    private void ChangeOver(List<ZoneTime> next)
    {
        var changes = next.Select(time => time.Zone.Supply).OfType<Supply>().Distinct().Where(supply => supply.WithFeeders().Any(on => on.Change is not null))
            .SelectMany(supply => _supplyEnds.Keys.Select(before => (Before: before, Change: supply.ChangeAfter(before))))
            .Where(change => change.Change is not null).ToArray();
        foreach (var (before, change) in changes.Where(change => !change.Change!.IsOverlap))
        {
            _now = Math.Max(_now, _supplyEnds[before] + change!.Length.WholeSeconds());
        }

        foreach (var (before, change) in changes.Where(change => change.Change!.IsOverlap && _supplyEnds[change.Before] == _now))
        {
            KeepOpen(before, change!.Length.WholeSeconds());
        }
    }

    /// <summary>Remembers which runs of a supply are the last to end: the run that was just added may be one of them.</summary>
    private void Ends(Supply supply, long end)
    {
        if (!_lastToEnd.TryGetValue(supply, out var last)) _lastToEnd[supply] = last = [];
        if (end < _supplyEnds.GetValueOrDefault(supply)) return;
        if (end > _supplyEnds.GetValueOrDefault(supply)) last.Clear();
        _supplyEnds[supply] = end;
        last.Add(_runs.Count - 1);
    }

    private void KeepOpen(Supply supply, long overlap)
    {
        foreach (var i in _lastToEnd[supply]) _runs[i] = _runs[i] with { Overlap = Math.Max(overlap, _runs[i].Overlap) };
    }

    private static string NumberOf(int index) => (index + 1).ToString(CultureInfo.InvariantCulture);
}
