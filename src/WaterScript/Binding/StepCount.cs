using WaterScript.Model;

namespace WaterScript.Binding;

/// <summary>How many runs and pauses steps come to, reckoned without expanding them.</summary>
internal sealed class StepCount
{
    private readonly Dictionary<Sequence, decimal> _sequences = new(ReferenceEqualityComparer.Instance);

    /// <summary>The count; a repetition of nothing counts its times.</summary>
    public decimal Of(IEnumerable<Step> steps)
    {
        decimal count = 0;
        foreach (var step in steps) count = Math.Min(count + Of(step), Enough);
        return count;
    }

    private decimal Of(Step step) => step switch
    {
        WaterStep water => water.Parts.Sum(part => part.Zones.Length),
        RepeatStep repeat => Math.Min(repeat.Times * Math.Max(1, Of(repeat.Steps)), Enough),
        CycleStep cycle => Of(cycle.Steps),
        RunStep run => Of(run.Sequence),
        _ => 1,
    };

    private decimal Of(Sequence sequence)
    {
        if (!_sequences.TryGetValue(sequence, out var count)) _sequences[sequence] = count = Of(sequence.Steps);
        return count;
    }

    /// <summary>More than any limit; keeps the arithmetic from growing without end.</summary>
    private const decimal Enough = 1_000_000_000_000;
}
