using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Agronomy;

/// <summary>How long a zone is watered for an amount of water.</summary>
internal static class RunTime
{
    /// <summary>More seconds than any watering lasts; what would take longer is calculated as this, so that the arithmetic cannot overflow.</summary>
    public const decimal Longest = 1_000_000_000_000;

    /// <summary>
    /// Seconds for an amount, before scale and trim, not rounded to whole ones. A depth is what the plants are to have, so a
    /// zone runs longer for what is lost or falls unevenly; a volume is what flows out of the pipes. Null where the zone does not
    /// say its application rate, for a depth, or its flow, for a volume.
    /// </summary>
    /// <param name="amount">A depth or a volume, above 0.</param>
    /// <param name="zone">The zone.</param>
    public static decimal? SecondsFor(Quantity amount, Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return amount.Dimension == Dimension.Depth
            ? zone.MillimetresPerHour is { } rate ? SecondsForDepth(amount.InBase, rate, Uniformity.ShareThatCounts(zone)) : null
            : zone.LitresPerMinute is { } flow ? SecondsForVolume(amount.InBase, flow) : null;
    }

    /// <summary>
    /// Seconds for a depth: 3600 · depth / (rate · efficiency), which is minutes = 60 · depth / (rate · efficiency)
    /// (Irrigation Association, Landscape Irrigation Scheduling and Water Management, 2005; from memory).
    /// </summary>
    /// <param name="millimetres">Depth that the plants are to have, in mm, above 0.</param>
    /// <param name="millimetresPerHour">Application rate in mm/h, above 0.</param>
    /// <param name="efficiencyPercent">Share of the water that counts, in per cent, above 0 and up to 100.</param>
    /// <returns>Seconds, at most <see cref="Longest"/>.</returns>
    public static decimal SecondsForDepth(decimal millimetres, decimal millimetresPerHour, decimal efficiencyPercent) =>
        Quotient(millimetres, 3600 * 100, millimetresPerHour, efficiencyPercent);

    /// <summary>Seconds for a volume: 60 · volume / flow.</summary>
    /// <param name="litres">Volume in L, above 0.</param>
    /// <param name="litresPerMinute">Flow in L/min, above 0.</param>
    /// <returns>Seconds, at most <see cref="Longest"/>.</returns>
    public static decimal SecondsForVolume(decimal litres, decimal litresPerMinute) => Quotient(litres, 60, litresPerMinute, 1);

    /// <summary>a · b / (c · d), compared with <see cref="Longest"/> in floating point first, where nothing overflows.</summary>
    private static decimal Quotient(decimal a, decimal b, decimal c, decimal d) =>
        (double)a * (double)b / ((double)c * (double)d) < (double)Longest ? a / c * b / d : Longest;
}
