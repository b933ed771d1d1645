using WaterScript.Model;

namespace WaterScript.Tests.Simulation;

/// <summary>A watering of one zone in a pass, in seconds from the start of the pass.</summary>
internal sealed record PlannedWatering(Zone Zone, long Start, long End, long Overlap, string Step, string? Injector);

/// <summary>What a pass does on a date, laid out second by second from its start.</summary>
internal sealed class ReferencePlan
{
    private readonly decimal _percent;
    private readonly List<List<PlannedWatering>> _parts = [];
    private readonly Dictionary<Supply, long> _lastEnd = [];
    private long _now;

    private ReferencePlan(decimal percent) => _percent = percent;

    public IReadOnlyList<PlannedWatering> Waterings { get; private set; } = [];

    /// <summary>How long the pass lasts, pauses included.</summary>
    public long Seconds => _now;

    /// <summary>Lays out steps at a share of their written times.</summary>
    public static ReferencePlan Of(IEnumerable<Step> steps, decimal percent)
    {
        var plan = new ReferencePlan(percent);
        plan.Take(steps, "");
        plan.Waterings = [.. plan._parts.SelectMany((part, index) => part.Select(watering => watering with { Overlap = plan.OverlapOf(watering, index) }))];
        return plan;
    }

    private void Take(IEnumerable<Step> steps, string prefix)
    {
        foreach (var (index, step) in steps.Index()) Take(step, $"{prefix}{index + 1}");
    }

    private void Take(Step step, string path)
    {
        switch (step)
        {
            case PauseStep pause:
                _now += (long)pause.Length.TotalSeconds;
                break;
            case RepeatStep repeat:
                for (var time = 1; time <= repeat.Times; time++) Take(repeat.Steps, $"{path}#{time}.");
                break;
            case RunStep run:
                Take(run.Sequence.Steps, $"{path}.");
                break;
            case WaterStep { For: { } written } water:
                foreach (var part in water.Parts) TakePart(part.Zones, (long)written.TotalSeconds, path, water.Through);
                break;
            default:
                throw new NotSupportedException(step.GetType().Name);
        }
    }

    private void TakePart(IEnumerable<Zone> zones, long written, string path, string? injector)
    {
        var wanted = zones.Select(zone => (Zone: zone, Seconds: TimeOf(zone, written))).Where(each => each.Seconds > 0).ToList();
        if (wanted.Count == 0) return;
        var start = wanted.Max(each => EarliestFor(each.Zone));
        _parts.Add([.. wanted.Select(each => new PlannedWatering(each.Zone, start, start + each.Seconds, 0, path, injector))]);
        foreach (var each in wanted.Where(each => each.Zone.Supply is not null).GroupBy(each => each.Zone.Supply!))
            _lastEnd[each.Key] = start + each.Max(zone => zone.Seconds);
        _now = start + wanted.Max(each => each.Seconds);
    }

    /// <summary>Nothing on a supply opens before its gap is over, which counts from when the supply's last zones closed.</summary>
    private long EarliestFor(Zone zone)
    {
        if (zone.Supply is not { Change: { IsOverlap: false } gap } supply || !_lastEnd.TryGetValue(supply, out var ended)) return _now;
        return Math.Max(_now, ended + (long)gap.Length.TotalSeconds);
    }

    /// <summary>Scaling leaves out what it brings under the shortest; what is written shorter than that is meant.</summary>
    private long TimeOf(Zone zone, long written)
    {
        var seconds = (long)decimal.Floor((written * _percent / 100 * zone.TrimPercent / 100) + 0.5m);
        var shortest = (long)(zone.Shortest?.TotalSeconds ?? 0);
        return written >= shortest && seconds < shortest ? 0 : seconds;
    }

    private long OverlapOf(PlannedWatering watering, int part)
    {
        if (watering.Zone.Supply is not { Change: { IsOverlap: true } overlap } supply) return 0;
        var next = _parts.Skip(part + 1).FirstOrDefault(later => later.Any(other => other.Zone.Supply == supply));
        return next is not null && next[0].Start == watering.End ? (long)overlap.Length.TotalSeconds : 0;
    }
}
