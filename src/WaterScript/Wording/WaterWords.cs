using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Wording;

/// <summary>
/// How water is said of a whole site: in gallons where its file counts it so, else in litres. What comes first in the file decides, supplies before
/// zones.
/// </summary>
internal sealed class WaterWords
{
    public WaterWords(Site site)
    {
        var isGallons = QuantitiesOf(site).FirstOrDefault(quantity => quantity is not null)?.Unit.Symbol is "gal" or "gpm" or "gph";
        Volume = Units.Find(isGallons ? "gal" : "L", Dimension.Volume)!;
        Flow = Units.Find(isGallons ? "gpm" : "L/min", Dimension.Flow)!;
    }

    /// <summary>The unit of volumes.</summary>
    public Unit Volume { get; }

    /// <summary>The unit of flows.</summary>
    public Unit Flow { get; }

    /// <summary><c>599.5 L</c></summary>
    /// <param name="litres">The volume.</param>
    /// <param name="digits">Digits after the point.</param>
    public string Say(decimal litres, int digits = 1) => Phrases.Amount(litres, Volume, digits);

    /// <summary><c>11.0 L/min</c></summary>
    public string SayFlow(decimal litresPerMinute) => Phrases.Amount(litresPerMinute, Flow, digits: 1);

    private static IEnumerable<Quantity?> QuantitiesOf(Site site) =>
        site.Supplies.SelectMany(supply => new Quantity?[] { supply.Flow, supply.Tank, supply.Daily })
            .Concat(site.Zones.SelectMany(zone => new Quantity?[] { zone.Flow, zone.EmitterFlow }));
}
