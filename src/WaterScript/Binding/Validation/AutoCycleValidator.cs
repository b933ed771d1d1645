using WaterScript.Agronomy;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;

namespace WaterScript.Binding.Validation;

/// <summary>Whether each zone of a <c>cycle auto</c> says enough about itself for the lengths of its pieces and soaks to follow.</summary>
/// <param name="misread">Names of zones with a mistake in their block, of which more is not asked.</param>
/// <param name="scope">Where findings go.</param>
internal sealed class AutoCycleValidator(IReadOnlySet<string> misread, Scope scope)
{
    /// <summary>
    /// Reports every zone of which a needed number is missing, or that cannot be watered without runoff, at the cycle, with the zone beside it.
    /// </summary>
    public void Check(CycleStep cycle)
    {
        foreach (var zone in Waterings.ZonesIn(cycle.Steps).Where(zone => !misread.Contains(zone.Name)))
        {
            if (Infiltration.Of(zone) is not { } infiltration) ReportMissing(cycle, zone);
            else if (infiltration.LongestWholeRun < 1) ReportTooFast(cycle, zone);
        }
    }

    private void ReportMissing(CycleStep cycle, Zone zone)
    {
        var (lacks, help) = zone switch
        {
            { MillimetresPerHour: null } =>
                ("has neither a rate nor flow and area", "Add its flow and the ground that it wets, such as `flow 9 L/min; area 45 m2`."),
            { Soil: null } => ("has no soil", "Add its soil, such as `soil loam`."),
            { Soil.Intake: null } =>
                ($"its soil, {zone.Soil.Name}, has no intake", $"Add it to soil {zone.Soil.Name}, such as `intake 10 mm/h`."),
            _ => ($"its soil, {zone.Soil.Name}, has no ponds", $"Add it to soil {zone.Soil.Name}, such as `ponds 5 mm`."),
        };
        scope.Report(Finding.At(
            ReadingRules.Missing, cycle.Origin, $"cannot work out a cycle from what is known of zone {zone.Name}", "its lengths are calculated") with
        {
            Others = [new Label(zone.Origin, lacks)],
            Help = $"{help}. Or say the lengths: cycle 6 min soak 30 min",
        });
    }

    private void ReportTooFast(CycleStep cycle, Zone zone) =>
        scope.Report(Finding.At(ReadingRules.OutOfRange, cycle.Origin, $"no cycle keeps \"{zone.Name}\" from running off", "not even of a second") with
        {
            Others = [new Label(zone.Origin, "gets more than its soil takes in, and nothing may stand on it")],
            Help = "Write how much may stand on the soil, such as `ponds 5 mm`, or write the lengths, such as `cycle 6 min soak 30 min`.",
        });
}
