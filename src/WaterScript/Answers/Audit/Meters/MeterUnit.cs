using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Answers.Audit.Meters;

/// <summary>The unit of readings whose column does not say: that of the tariff, else cubic metres, or gallons in a site that has them.</summary>
internal static class MeterUnit
{
    /// <summary>That of a supply.</summary>
    public static Unit Of(Supply supply, Site site)
    {
        ArgumentNullException.ThrowIfNull(supply);
        if (supply.Tariff is { } tariff) return tariff.Unit;
        var own = new WaterWords(site).Volume;
        return own.Symbol == "L" ? Units.Find("m3", Dimension.Volume)! : own;
    }

    /// <summary>Digits after the point: litres, a thousandth of a larger unit, a hundredth of a thousand gallons.</summary>
    public static int Digits(Unit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return unit.Symbol switch { "L" or "gal" => 0, "kgal" => 2, _ => 3 };
    }
}
