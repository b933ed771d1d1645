using WaterScript.Model;

namespace WaterScript.Binding;

/// <summary>What steps come to, summed up without expanding them.</summary>
/// <param name="ofOne">What a single watering or pause comes to.</param>
internal sealed class StepSum(Func<Step, decimal> ofOne)
{
    private readonly Dictionary<Sequence, decimal> _sequences = new(ReferenceEqualityComparer.Instance);

    /// <summary>Counts runs and pauses.</summary>
    public static StepSum Runs() => new(step => step is WaterStep water ? water.Parts.Sum(part => (decimal)part.Zones.Length) : 1);

    /// <summary>Adds up seconds, but for waterings of an amount, whose time is not known here.</summary>
    public static StepSum Seconds() => new(step => step switch
    {
        WaterStep { For: { } time } water => water.Parts.Length * (decimal)time.TotalSeconds,
        PauseStep pause => (decimal)pause.Length.TotalSeconds,
        _ => 0,
    });

    /// <summary>The sum; a repetition of nothing counts its times.</summary>
    public decimal Of(IEnumerable<Step> steps)
    {
        decimal count = 0;
        foreach (var step in steps) count = Math.Min(count + Of(step), Enough);
        return count;
    }

    private decimal Of(Step step) => step switch
    {
        RepeatStep repeat => Math.Min(repeat.Times * Math.Max(1, Of(repeat.Steps)), Enough),
        CycleStep cycle => Of(cycle.Steps),
        RunStep run => Of(run.Sequence),
        _ => ofOne(step),
    };

    private decimal Of(Sequence sequence)
    {
        if (!_sequences.TryGetValue(sequence, out var count)) _sequences[sequence] = count = Of(sequence.Steps);
        return count;
    }

    /// <summary>More than any limit; keeps the arithmetic from growing without end.</summary>
    private const decimal Enough = 1_000_000_000_000;
}
