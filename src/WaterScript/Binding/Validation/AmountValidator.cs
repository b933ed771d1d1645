using WaterScript.Agronomy;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Binding.Validation;

/// <summary>Whether each zone says enough about itself for a run time to follow from an amount of water.</summary>
/// <param name="misread">Names of zones with a mistake in their block, of which more is not asked.</param>
/// <param name="scope">Where findings go.</param>
internal sealed class AmountValidator(IReadOnlySet<string> misread, Scope scope)
{
    /// <summary>Reports every zone of which a needed number is missing, at the amount, with the zone beside it.</summary>
    /// <param name="amount">A depth or a volume.</param>
    /// <param name="origin">Where it is written.</param>
    /// <param name="parts">The zones.</param>
    public void Check(Quantity amount, Location origin, IEnumerable<ZonePart> parts)
    {
        foreach (var zone in parts.SelectMany(part => part.Zones).DistinctBy(zone => zone.Name))
        {
            if (misread.Contains(zone.Name) || RunTime.SecondsFor(amount, zone) is not null) continue;
            var (lacks, help) = amount.Dimension == Dimension.Depth ? ForDepth(zone) : ForVolume();
            scope.Report(Finding.At(
                ReadingRules.Missing, origin, $"cannot work out a run time for zone {zone.Name} from {amount}", "a time is calculated from this") with
            {
                Others = [new Label(zone.Origin, lacks)],
                Help = help,
            });
        }
    }

    private static (string Lacks, string WayOut) ForDepth(Zone zone) => (zone.LitresPerMinute, zone.Area) switch
    {
        (not null, _) => ("has a flow, but neither an area nor a rate", "Add the ground that it wets, such as `area 45 m2`."),
        (null, not null) => ("has an area, but neither a flow nor a rate", "Add its flow, such as `flow 9 L/min`."),
        _ => ("has neither flow and area nor a rate", "Add its application rate, such as `rate 12 mm/h`."),
    };

    private static (string Lacks, string WayOut) ForVolume() => ("has no flow", "Add its flow, such as `flow 9 L/min`.");
}
