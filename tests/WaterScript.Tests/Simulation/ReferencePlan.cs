using WaterScript.Model;

namespace WaterScript.Tests.Simulation;

/// <summary>A watering of one zone in a pass, in seconds from the start of the pass.</summary>
internal sealed record PlannedWatering(Zone Zone, long Start, long End, long Overlap, string Step, string? Injector)
{
    /// <summary>Which part of the pass it is of, and the seconds for which that doses whatever its length; null where it doses all the way.</summary>
    public (int Part, long? Dose) Dosing { get; init; }
}

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
            case WaterStep water:
                foreach (var part in water.Parts) Place(Wanted(part, water), path, water.Through, DoseOf(water));
                break;
            case TogetherStep together:
                Place(Wanted(together), path, together.Waters[0].Through, DoseOf(together.Waters[0]));
                break;
            case CycleStep { Cycle: not null } cycle:
                TakeCycle(cycle, path);
                break;
            default:
                throw new NotSupportedException(step.GetType().Name);
        }
    }

    /// <summary>The zones of a part of which scale and trim leave something, and for how long.</summary>
    private List<(Zone Zone, long Seconds)> Wanted(ZonePart part, WaterStep water) =>
        [.. part.Zones.Select(zone => (Zone: zone, Seconds: TimeOf(zone, water))).Where(each => each.Seconds > 0)];

    /// <summary>Each by its own length, all from the same second.</summary>
    private List<(Zone Zone, long Seconds)> Wanted(TogetherStep together) =>
        [.. together.Waters.SelectMany(water => water.Parts.SelectMany(part => Wanted(part, water)))];

    private long Place(List<(Zone Zone, long Seconds)> wanted, string path, string? injector, long? dose = null)
    {
        if (wanted.Count == 0) return _now;
        var start = wanted.Max(each => EarliestFor(each.Zone));
        _parts.Add([.. wanted.Select(each => new PlannedWatering(each.Zone, start, start + each.Seconds, 0, path, injector)
        {
            Dosing = (_parts.Count, dose),
        })]);
        foreach (var each in wanted.Where(each => each.Zone.Supply is not null).GroupBy(each => each.Zone.Supply!))
            _lastEnd[each.Key] = start + each.Max(zone => zone.Seconds);
        _now = start + wanted.Max(each => each.Seconds);
        return start;
    }

    /// <summary>Round after round; before each piece the seconds are counted until all its zones have soaked long enough.</summary>
    private void TakeCycle(CycleStep cycle, string path)
    {
        var soak = (long)cycle.Soak!.Value.TotalSeconds;
        var units = LinesIn(cycle.Steps, "")
            .Select(line => (line.Path, line.Through, Pieces: Deal(line.Wanted, (long)cycle.Cycle!.Value.TotalSeconds)))
            .ToList();
        var wet = new Dictionary<string, long>();
        for (var round = 0; units.Exists(unit => round < unit.Pieces.Count); round++)
        {
            foreach (var (line, injector, pieces) in units.Where(unit => round < unit.Pieces.Count))
            {
                var piece = pieces[round];
                while (piece.Exists(each => wet.TryGetValue(each.Zone.Name, out var end) && _now - end < soak)) _now++;
                var start = Place(piece, $"{path}#{round + 1}.{line}", injector);
                foreach (var each in piece) wet[each.Zone.Name] = start + each.Seconds;
            }
        }
    }

    /// <summary>What a cycle deals out, one after the other: each part, and each row of lengths that begin together.</summary>
    private IEnumerable<(string Path, string? Through, List<(Zone Zone, long Seconds)> Wanted)> LinesIn(IEnumerable<Step> steps, string prefix) =>
        steps.Index().SelectMany(step => step.Item switch
    {
        WaterStep water => water.Parts.Select(part => ($"{prefix}{step.Index + 1}", water.Through, Wanted(part, water))),
        TogetherStep together => [($"{prefix}{step.Index + 1}", together.Waters[0].Through, Wanted(together))],
        RunStep run => LinesIn(run.Sequence.Steps, $"{prefix}{step.Index + 1}."),
        var other => throw new NotSupportedException(other.GetType().Name),
    });

    /// <summary>Tries more and more pieces until none is too long, dealing the seconds of each zone out one by one.</summary>
    private static List<List<(Zone Zone, long Seconds)>> Deal(List<(Zone Zone, long Seconds)> wanted, long longest)
    {
        if (wanted.Count == 0) return [];
        for (var count = 1; ; count++)
        {
            var pieces = Enumerable.Range(0, count).Select(_ => new Dictionary<Zone, long>(ReferenceEqualityComparer.Instance)).ToList();
            foreach (var (zone, seconds) in wanted)
            {
                for (var second = 0; second < seconds; second++) pieces[second % count][zone] = pieces[second % count].GetValueOrDefault(zone) + 1;
            }

            if (pieces.TrueForAll(piece => piece.Values.All(seconds => seconds <= longest)))
                return [.. pieces.Select(piece => wanted.Where(each => piece.ContainsKey(each.Zone)).Select(each => (each.Zone, piece[each.Zone])).ToList())];
        }
    }

    /// <summary>Nothing on a supply opens before its gap is over, which counts from when the supply's last zones closed.</summary>
    private long EarliestFor(Zone zone)
    {
        var earliest = _now;
        foreach (var (before, ended) in _lastEnd)
        {
            if (ChangeBetween(before, zone.Supply) is { IsOverlap: false } gap) earliest = Math.Max(earliest, ended + (long)gap.Length.TotalSeconds);
        }

        return earliest;
    }

    /// <summary>A dose of a time or of an amount, in whole seconds; nothing scales it.</summary>
    private static long? DoseOf(WaterStep water) => water.Dose switch
    {
        null => null,
        { Time: { } time } => (long)time.TotalSeconds,
        { Amount: { } amount, Rate: { } rate } => ReferenceAmount.Rounded([amount.InBase, 60], [rate.InBase]),
        _ => throw new NotSupportedException("a dose without a size"),
    };

    /// <summary>Scaling leaves out what it brings under the shortest; what is written shorter than that is meant.</summary>
    private long TimeOf(Zone zone, WaterStep water)
    {
        if (water.IsExact) return _percent == 0 ? 0 : ReferenceAmount.Seconds(water, zone);
        var seconds = ReferenceAmount.Seconds(water, zone, _percent);
        var shortest = (long)(zone.Shortest?.Value.TotalSeconds ?? 0);
        return ReferenceAmount.IsAtLeast(water, zone, shortest) && seconds < shortest ? 0 : seconds;
    }

    private long OverlapOf(PlannedWatering watering, int part)
    {
        var next = _parts.Skip(part + 1).Where(later => later[0].Start == watering.End).SelectMany(later => later);
        return next.Select(later => ChangeBetween(watering.Zone.Supply, later.Zone.Supply))
            .Select(change => change is { IsOverlap: true } ? (long)change.Length.TotalSeconds : 0).DefaultIfEmpty().Max();
    }

    /// <summary>
    /// Between two waterings stands what is written for the first supply that the water of the later one comes through, of those that the earlier one had too.
    /// </summary>
    private static ChangeOver? ChangeBetween(Supply? earlier, Supply? later)
    {
        for (var on = later; on is not null; on = on.Tank is null ? on.FedBy : null)
        {
            for (var off = earlier; off is not null; off = off.Tank is null ? off.FedBy : null)
            {
                if (on.Name == off.Name && on.Change is not null) return on.Change;
            }
        }

        return null;
    }
}
