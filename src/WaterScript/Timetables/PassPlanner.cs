using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Timetables;

/// <summary>
/// Lays the steps of a schedule out on the seconds of one pass. The binder has refused steps that nest too deep or make too
/// many runs, so that this ends and fits in memory. It has also reported each amount and cycle as not computed: they come
/// here only when somebody wants the timetable despite that, and then cycles are not split and amounts are left out.
/// </summary>
internal sealed class PassPlanner
{
    private readonly Schedule _schedule;
    private readonly decimal _scalePercent;
    private readonly RunOrder _order;
    private readonly List<PlannedRun> _runs = [];
    private readonly List<string> _paths = [];
    private readonly List<Location> _origins = [];
    private readonly List<LeftOut> _leftOut = [];
    private readonly Dictionary<Supply, long> _supplyEnds = [];
    private long _now;

    private PassPlanner(Schedule schedule, decimal scalePercent, RunOrder order)
    {
        _schedule = schedule;
        _scalePercent = scalePercent;
        _order = order;
    }

    /// <summary>The plan of a pass.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="scalePercent">The share of the written times.</param>
    /// <param name="order">Orders runs that start together.</param>
    public static PassPlan Plan(Schedule schedule, decimal scalePercent, RunOrder order)
    {
        var planner = new PassPlanner(schedule, scalePercent, order);
        planner.AddSteps(schedule.Steps, prefix: "");
        var runs = planner._runs.OrderBy(run => run.Offset).ThenBy(run => run.Rank);
        return new PassPlan([.. runs], [.. planner._paths], [.. planner._origins], [.. planner._leftOut], planner._now);
    }

    private void AddSteps(IReadOnlyList<Step> steps, string prefix)
    {
        for (var i = 0; i < steps.Count; i++)
        {
            AddStep(steps[i], prefix + (i + 1).ToString(CultureInfo.InvariantCulture));
        }
    }

    private void AddStep(Step step, string path)
    {
        switch (step)
        {
            case WaterStep water:
                AddWater(water, path);
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
                AddSteps(cycle.Steps, path + ".");
                break;
        }
    }

    private void AddWater(WaterStep water, string path)
    {
        if (water.For is not { } length) return;
        _paths.Add(path);
        _origins.Add(water.Origin);
        foreach (var part in water.Parts) AddPart(part, length.WholeSeconds(), water);
    }

    private void AddPart(ZonePart part, long written, WaterStep step)
    {
        var times = new List<(Zone Zone, long Seconds)>(part.Zones.Length);
        foreach (var zone in part.Zones)
        {
            var seconds = ScaledTime.Of(written, _scalePercent, zone);
            if (ScaledTime.IsLeftOut(written, seconds, zone)) _leftOut.Add(new LeftOut(zone, step.Origin, written, seconds));
            else times.Add((zone, seconds));
        }

        if (times.Count == 0) return;
        ChangeOver(times);
        foreach (var (zone, seconds) in times)
        {
            _runs.Add(new PlannedRun(_now, seconds, Overlap: 0, zone.Index, _paths.Count - 1, _order.RankOf(zone, _schedule), _order.IndexOfInjector(step.Through)));
            if (zone.Supply is { } supply) _supplyEnds[supply] = Math.Max(_supplyEnds.GetValueOrDefault(supply), _now + seconds);
        }

        _now += times.Max(time => time.Seconds);
    }

    /// <summary>Where the part before on a supply of these zones has just ended: waits for its gap, or keeps it open for its overlap.</summary>
    private void ChangeOver(List<(Zone Zone, long Seconds)> next)
    {
        var supplies = next.Select(time => time.Zone.Supply).OfType<Supply>().Distinct()
            .Where(supply => supply.Change is not null && _supplyEnds.ContainsKey(supply)).ToArray();
        foreach (var supply in supplies.Where(supply => !supply.Change!.IsOverlap))
        {
            _now = Math.Max(_now, _supplyEnds[supply] + supply.Change!.Length.WholeSeconds());
        }

        foreach (var supply in supplies.Where(supply => supply.Change!.IsOverlap && _supplyEnds[supply] == _now))
        {
            KeepOpen(supply, supply.Change!.Length.WholeSeconds());
        }
    }

    private void KeepOpen(Supply supply, long overlap)
    {
        for (var i = _runs.Count - 1; i >= 0; i--)
        {
            var run = _runs[i];
            if (run.Offset + run.Seconds == _now && _order.ZoneAt(run.Zone).Supply == supply) _runs[i] = run with { Overlap = overlap };
        }
    }
}
