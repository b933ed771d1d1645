using WaterScript.Agronomy;
using WaterScript.Model;

namespace WaterScript.Binding.Validation;

/// <summary>What steps come to, summed up without expanding them.</summary>
/// <param name="ofOne">What a single watering or pause comes to.</param>
/// <param name="ofCycle">What the steps of a cycle come to.</param>
internal sealed class StepSum(Func<Step, decimal> ofOne, Func<CycleStep, decimal> ofCycle)
{
    private readonly Dictionary<Sequence, decimal> _sequences = new(ReferenceEqualityComparer.Instance);

    /// <summary>Counts runs and pauses.</summary>
    public static StepSum Runs()
    {
        return new StepSum(RunsOf, cycle => new StepSum(step => step is WaterStep water ? PiecesIn(water, cycle) : 1, _ => 1).Of(cycle.Steps));

        static decimal RunsOf(Step step) => step is WaterStep water ? water.Parts.Sum(part => (decimal)part.Zones.Length) : 1;

        static decimal PiecesIn(WaterStep water, CycleStep cycle) => water.Parts.Sum(part => PiecesOf(water, part, cycle) * part.Zones.Length);
    }

    /// <summary>Adds up seconds; those of a cycle as if every piece had to wait for all of its soak, which is the most that it can come to.</summary>
    public static StepSum Seconds()
    {
        return new StepSum(SecondsOf, cycle => new StepSum(step => SecondsOf(step) + SoakOf(step, cycle), _ => 0).Of(cycle.Steps));

        static decimal SecondsOf(Step step) => step switch
        {
            WaterStep water => water.Parts.Sum(part => LongestOf(water, part.Zones) + part.Zones.Max(GapOf)),
            PauseStep pause => (decimal)pause.Length.TotalSeconds,
            _ => 0,
        };

        static decimal GapOf(Zone zone) => (zone.Supply?.WithFeeders() ?? [])
            .Select(supply => supply.Change is { IsOverlap: false } change ? (decimal)change.Length.TotalSeconds : 0).DefaultIfEmpty().Max();

        static decimal SoakOf(Step step, CycleStep cycle) =>
            step is WaterStep water ? water.Parts.Sum(
                part => PiecesOf(water, part, cycle) * part.Zones.Max(zone => CycleAndSoak.Soak(cycle, zone, LongestPiece(part, cycle)))) : 0;
    }

    /// <summary>Into how many pieces a cycle splits a part of a watering, at most.</summary>
    private static decimal PiecesOf(WaterStep water, ZonePart part, CycleStep cycle)
    {
        var seconds = part.Zones.Max(zone => LongestOf(water, [zone]) * Math.Max(100, zone.TrimPercent) / 100);
        return decimal.Ceiling(seconds / LongestPiece(part, cycle));
    }

    private static long LongestPiece(ZonePart part, CycleStep cycle) => CycleAndSoak.LongestPiece(cycle, part.Zones);

    /// <summary>How long the longest of some zones is watered, before scale and trim, in seconds.</summary>
    private static decimal LongestOf(WaterStep water, IEnumerable<Zone> zones) =>
        water.For is { } time ? (decimal)time.TotalSeconds
        : water.With is { } amount ? zones.Max(zone => RunTime.SecondsFor(amount, zone) ?? 0)
        : 0;

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
        CycleStep cycle => ofCycle(cycle),
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
