using System.Collections.Immutable;
using WaterScript.Binding.Validation;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Steps and sequences.</summary>
internal sealed class StepBinder
{
    private readonly ZoneListBinder _lists;
    private readonly AmountValidator _amounts;
    private readonly AutoCycleValidator _cycles;
    private readonly DoseBinder _doses;
    private readonly Scope _scope;
    private readonly Dictionary<string, PlacedNode<SequenceNode>> _nodes;
    private readonly NameTable<Sequence> _sequences;
    private readonly List<string> _open = [];

    public StepBinder(IEnumerable<PlacedNode<SequenceNode>> sequences, ZoneListBinder lists, IEnumerable<Device> devices, AmountValidator amounts,
        AutoCycleValidator cycles, Scope scope)
    {
        _lists = lists;
        _amounts = amounts;
        _cycles = cycles;
        _scope = scope;
        _doses = new DoseBinder(devices, scope);
        _nodes = sequences.ToDictionary(sequence => sequence.Node.Name.Text, StringComparer.Ordinal);
        _sequences = new NameTable<Sequence>("sequence", scope);
        foreach (var name in _nodes.Keys) SequenceOf(name);
    }

    /// <summary>The sequences, in order of the file.</summary>
    public ImmutableArray<Sequence> Sequences => [.. _nodes.Keys.Select(_sequences.Find).OfType<Sequence>()];

    /// <summary>Sequences that nothing runs.</summary>
    public IEnumerable<(string Name, Location Origin)> UnusedSequences => _sequences.Unused;

    /// <summary>The steps between braces; what could not be read is left out and reported, and so is that there are none.</summary>
    /// <param name="nodes">The steps.</param>
    /// <param name="body">What holds them.</param>
    public ImmutableArray<Step> Bind(ImmutableArray<StepNode> nodes, Location body)
    {
        var source = body.Source;
        if (nodes.IsEmpty && !_scope.HasFindingIn(body))
            _scope.Report(ReadingRules.Missing, body, "there are no steps", help: "Write them between the braces, such as `water lawn for 10 min`.");
        var steps = ImmutableArray.CreateBuilder<Step>();
        foreach (var node in nodes)
        {
            if (Bind(node, source) is { } step) steps.Add(step);
        }

        return steps.DrainToImmutable();
    }

    private Step? Bind(StepNode node, SourceText source)
    {
        var origin = new Location(source, node.Span);
        switch (node)
        {
            case WaterNode water:
                return Water(water, origin);
            case TogetherNode together:
                return Together(together, origin);
            case PauseNode pause:
                return RowCursor.Length(_scope, source, pause.Duration, "pause 2 min") is { } length ? new PauseStep(origin, length) : null;
            case RepeatStepsNode repeat:
                var steps = Bind(repeat.Steps, origin);
                if (Whole(repeat.Times, source, Limits.RunsPerPass) is not { } times) return null;
                return new RepeatStep(origin, times, steps);
            case CycleNode cycle:
                return Cycle(cycle, origin);
            case RunNode run:
                return SequenceFor(run, source) is { } sequence ? new RunStep(origin, sequence) : null;
            default:
                throw new ArgumentException($"not a step of the language: {node.GetType().Name}", nameof(node));
        }
    }

    private WaterStep? Water(WaterNode node, Location origin)
    {
        var parts = _lists.Parts(node.Zones, origin.Source);
        var length = node.For is null ? null : RowCursor.Length(_scope, origin.Source, node.For, "water lawn for 10 min");
        var amount = node.With is null ? null : Amount(node.With, origin.Source);
        var (through, dose) = _doses.Bind(node.Through, origin.Source);
        if (through is not null) _doses.CheckServed(node.Through!, parts, origin.Source);
        if (parts.IsEmpty || (length is null && amount is null)) return null;
        if (amount is { } given) _amounts.Check(given, new Location(origin.Source, node.With!.Span), parts);
        return new WaterStep(origin, parts, length, amount, through) { IsExact = node.IsExact, Dose = dose };
    }

    /// <summary>One of them that could not be read takes the others with it: alone they would be another step.</summary>
    private TogetherStep? Together(TogetherNode node, Location origin)
    {
        var waters = ImmutableArray.CreateBuilder<WaterStep>();
        var (through, dose) = _doses.Bind(node.Waters[^1].Through, origin.Source);
        foreach (var water in node.Waters)
        {
            if (Water(water with { Through = null }, new Location(origin.Source, water.Span)) is { } step)
                waters.Add(step with { IsBesideOthers = true, Through = through, Dose = dose });
        }

        if (through is not null) _doses.CheckServed(node.Waters[^1].Through!, waters.SelectMany(water => water.Parts), origin.Source);
        CheckTogether(node, waters, origin.Source);
        return waters.Count == node.Waters.Length ? new TogetherStep(origin, waters.DrainToImmutable()) : null;
    }

    /// <summary>Where lengths stand side by side nothing comes after anything, and a zone has one length.</summary>
    private void CheckTogether(TogetherNode node, IEnumerable<WaterStep> waters, SourceText source)
    {
        const string help = "Put a plus in place of the comma, or begin a new line with `water` for what comes later.";
        foreach (var list in node.Waters.Select(water => water.Zones).Where(zones => zones.Parts.Length > 1))
            _scope.Report(ReadingRules.Contradiction, new Location(source, list.Span), "a comma beside several lengths", "all of these begin together", help);
        var alone = node.Waters.Where(water => water.Zones.Parts.Length == 1).Select(water => water.Span).ToHashSet();
        foreach (var water in waters.Where(water => water.Parts.Length > 1 && alone.Contains(water.Origin.Span)))
            _scope.Report(ReadingRules.Contradiction, water.Parts[0].Origin, "a row, one zone after the other, beside several lengths",
                "all of these begin together", "Name the zones that are to be on together, with a plus.");
        var seen = new Dictionary<string, Location>(StringComparer.Ordinal);
        foreach (var (zone, place) in waters.SelectMany(water => water.Parts).SelectMany(part => part.Zones.Select(zone => (zone, part.Origin))))
        {
            if (!seen.TryAdd(zone.Name, place) && seen[zone.Name] != place)
                _scope.Report(Finding.At(ReadingRules.Contradiction, place, $"{zone.Name} twice at once", "with another length") with
                {
                    Others = [new Label(seen[zone.Name], "here too")],
                    Help = "Name it once.",
                });
        }
    }

    private CycleStep? Cycle(CycleNode node, Location origin)
    {
        foreach (var inner in node.Steps.Where(inner => inner is not (WaterNode or TogetherNode or RunNode)))
            _scope.Report(ReadingRules.Contradiction, new Location(origin.Source, inner.Span), "only `water` and `run` can stand in a cycle",
                help: "Put it before or after the cycle.");
        var steps = Bind([.. node.Steps.Where(inner => inner is WaterNode or TogetherNode or RunNode)], origin);
        foreach (var run in steps.OfType<RunStep>()) CheckInCycle(run);
        _doses.CheckCycle(steps);
        var cycle = node.Cycle is null ? null : RowCursor.Length(_scope, origin.Source, node.Cycle, "cycle 6 min soak 30 min");
        var soak = node.Soak is null ? null : RowCursor.Length(_scope, origin.Source, node.Soak, "cycle 6 min soak 30 min");
        if ((node.Cycle is not null && cycle is null) || (node.Soak is not null && soak is null)) return null;
        var step = new CycleStep(origin, cycle, soak, steps);
        if (cycle is null) _cycles.Check(step);
        return step;
    }

    private void CheckInCycle(RunStep run)
    {
        if (OtherThanWater(run.Sequence, []) is not { } other) return;
        _scope.Report(Finding.At(ReadingRules.Contradiction, run.Origin, $"sequence \"{run.Sequence.Name}\" holds more than waterings",
            "stands in a cycle") with
        {
            Others = [new Label(other.Origin, "cannot stand in a cycle")],
            Help = "Put it before or after the cycle, or write the waterings of the sequence out.",
        });
    }

    /// <summary>The first step of a sequence, and of those that it runs, that is neither a watering nor such a run; null when there is none.</summary>
    private static Step? OtherThanWater(Sequence sequence, HashSet<Location> seen)
    {
        foreach (var step in sequence.Steps)
        {
            if (step is RunStep run)
            {
                if (seen.Add(run.Sequence.Origin) && OtherThanWater(run.Sequence, seen) is { } inner) return inner;
            }
            else if (step is not (WaterStep or TogetherStep))
            {
                return step;
            }
        }

        return null;
    }

    private Quantity? Amount(RowNode row, SourceText source)
    {
        var cursor = new RowCursor(_scope, source, row, "water lawn with 12 mm");
        var amount = cursor.AnyQuantity();
        cursor.End();
        if (cursor.HasFailed || amount is not { } given) return null;
        if (given.Dimension is Dimension.Depth or Dimension.Volume && given.Value > 0) return given;
        _scope.Report(ReadingRules.WrongUnit, new Location(source, row.Span), $"{source.Slice(row.Span)} is not an amount of water",
            "a depth or a volume is needed", $"Write it in {Dimension.Depth.UnitList()}, or in {Dimension.Volume.UnitList()}; for a time, write for.");
        return null;
    }

    private int? Whole(NumberNode node, SourceText source, int most)
    {
        if (node.Value >= 1 && node.Value == decimal.Truncate(node.Value))
        {
            if (node.Value <= most) return (int)node.Value;
            _scope.Report(ReadingRules.OverLimit, new Location(source, node.Span), $"{source.Slice(node.Span)} repeats; the limit is {most}",
                help: "Repeat less often, or start the schedule more than once.");
            return null;
        }

        _scope.Report(ReadingRules.OutOfRange, new Location(source, node.Span), $"{source.Slice(node.Span)} is not a number of times",
            "a whole number, 1 or more");
        return null;
    }

    private Sequence? SequenceFor(RunNode run, SourceText source)
    {
        var name = run.Sequence.Text;
        var origin = new Location(source, run.Sequence.Span);
        if (_open.Contains(name))
        {
            _scope.Report(ReadingRules.Loop, origin, $"sequence \"{name}\" runs itself: {string.Join(" runs ", _open.Skip(_open.IndexOf(name)).Append(name))}",
                help: "Delete this line.");
            return null;
        }

        if (!_nodes.ContainsKey(name))
        {
            _scope.ReportUnknown(origin, $"no sequence is called \"{name}\"", name, _nodes.Keys);
            return null;
        }

        if (_open.Count >= Limits.NameDepth)
        {
            _scope.Report(ReadingRules.OverLimit, origin, $"more than {Limits.NameDepth} sequences run one another", help: "Write the steps out.");
            return null;
        }

        var sequence = SequenceOf(name);
        _sequences.TryUse(name, out _);
        return sequence;
    }

    private Sequence SequenceOf(string name)
    {
        if (_sequences.Find(name) is { } known) return known;
        var placed = _nodes[name];
        _open.Add(name);
        var steps = Bind(placed.Node.Steps, placed.At(placed.Node.Span));
        _open.RemoveAt(_open.Count - 1);
        var sequence = new Sequence(name, placed.Node.Label?.Value, placed.At(placed.Node.Name.Span), steps);
        _sequences.Add(name, sequence.Origin, sequence);
        return sequence;
    }
}
