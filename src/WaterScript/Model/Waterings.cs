namespace WaterScript.Model;

/// <summary>What steps water, whatever stands around it.</summary>
internal static class Waterings
{
    /// <summary>
    /// The waterings among steps, those inside repetitions, cycles and sequences included, each as often as it is written. The binder has refused
    /// steps that nest too deep.
    /// </summary>
    public static IEnumerable<WaterStep> In(IEnumerable<Step> steps) => steps.SelectMany(step => step switch
    {
        WaterStep water => [water],
        TogetherStep together => together.Waters,
        RepeatStep repeat => In(repeat.Steps),
        CycleStep cycle => In(cycle.Steps),
        RunStep run => In(run.Sequence.Steps),
        _ => Enumerable.Empty<WaterStep>(),
    });

    /// <summary>The zones that steps water, each once, in the order in which they are first written.</summary>
    public static IEnumerable<Zone> ZonesIn(IEnumerable<Step> steps) =>
        In(steps).Distinct().SelectMany(water => water.Parts).SelectMany(part => part.Zones).DistinctBy(zone => zone.Index);
}
