using WaterScript.Quantities;

namespace WaterScript.Model;

/// <summary>A vessel in which air under pressure keeps water, so that a pump need not start for every litre.</summary>
/// <param name="Volume">Volume of the vessel.</param>
/// <param name="CutIn">Pressure on the gauge at which the pump starts, or null.</param>
/// <param name="CutOut">Pressure on the gauge at which it stops, above the other, or null.</param>
internal readonly record struct PressureTank(Quantity Volume, Quantity? CutIn, Quantity? CutOut)
{
    /// <summary>The pressure of the air, in bar (ISO 2533, at sea level).</summary>
    private const decimal Air = 1.01325m;

    /// <summary>
    /// The water that it gives between the two pressures, in litres: V · (1 − in / out), both absolute (Boyle's law; the air in it is taken to be filled
    /// to the lower one). Null where they are not known.
    /// </summary>
    public decimal? UsableLitres => (CutIn, CutOut) is ({ } low, { } high) ? Volume.InBase * (1 - ((low.InBase + Air) / (high.InBase + Air))) : null;
}
