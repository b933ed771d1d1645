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
        return new StepSum(
            RunsOf, cycle => new StepSum(step => BegunTogether(step).Sum(times => PiecesOf(times, cycle) * times.Count), _ => 1).Of(cycle.Steps));

        static decimal RunsOf(Step step) => step is WaterStep or TogetherStep ? BegunTogether(step).Sum(times => (decimal)times.Count) : 1;
    }

    /// <summary>Adds up seconds; those of a cycle as if every piece had to wait for all of its soak, which is the most that it can come to.</summary>
    public static StepSum Seconds()
    {
        return new StepSum(SecondsOf, cycle => new StepSum(step => SecondsOf(step) + SoakOf(step, cycle), _ => 0).Of(cycle.Steps));

        static decimal SecondsOf(Step step) => step is PauseStep pause ? (decimal)pause.Length.TotalSeconds
            : BegunTogether(step).Sum(times => times.Max(time => time.Seconds) + times.Max(time => GapOf(time.Zone)));

        static decimal GapOf(Zone zone) => (zone.Supply?.WithFeeders() ?? [])
            .Select(supply => supply.Change is { IsOverlap: false } change ? (decimal)change.Length.TotalSeconds : 0).DefaultIfEmpty().Max();

        static decimal SoakOf(Step step, CycleStep cycle) => BegunTogether(step).Sum(
            times => PiecesOf(times, cycle) * times.Max(time => CycleAndSoak.Soak(cycle, time.Zone, LongestPiece(times, cycle))));
    }

    /// <summary>The zones that begin together, one row after the other, each with its time before scale and trim, in seconds.</summary>
    private static IEnumerable<List<(Zone Zone, decimal Seconds)>> BegunTogether(Step step) => step switch
    {
        WaterStep water => water.Parts.Select(part => part.Zones.Select(zone => (zone, LengthOf(water, zone))).ToList()),
        TogetherStep together => [[.. together.Waters.SelectMany(BegunTogether).SelectMany(times => times)]],
        _ => [],
    };

    /// <summary>Into how many pieces a cycle splits what begins together, at most.</summary>
    private static decimal PiecesOf(List<(Zone Zone, decimal Seconds)> times, CycleStep cycle)
    {
        var seconds = times.Max(time => time.Seconds * Math.Max(100, time.Zone.TrimPercent) / 100);
        return decimal.Ceiling(seconds / LongestPiece(times, cycle));
    }

    private static long LongestPiece(List<(Zone Zone, decimal Seconds)> times, CycleStep cycle) =>
        CycleAndSoak.LongestPiece(cycle, times.Select(time => time.Zone));

    /// <summary>How long a zone is watered, before scale and trim, in seconds.</summary>
    private static decimal LengthOf(WaterStep water, Zone zone) =>
        water.For is { } time ? (decimal)time.TotalSeconds
        : water.With is { } amount ? RunTime.SecondsFor(amount, zone) ?? 0
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
