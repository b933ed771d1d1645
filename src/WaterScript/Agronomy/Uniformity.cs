using WaterScript.Model;

namespace WaterScript.Agronomy;

/// <summary>How evenly a zone's water falls, and how much longer it runs for that.</summary>
internal static class Uniformity
{
    private const decimal Whole = 100;

    /// <summary>
    /// The run-time multiplier 1 / (0.4 + 0.6 · DU), DU being the low-quarter distribution uniformity
    /// (Irrigation Association, Landscape Irrigation Scheduling and Water Management, 2005; from memory).
    /// </summary>
    /// <param name="lowQuarterPercent">Low-quarter distribution uniformity in per cent, above 0 and up to 100.</param>
    /// <returns>1 to 2.5.</returns>
    public static decimal RunTimeMultiplier(decimal lowQuarterPercent) => Whole / ShareOf(lowQuarterPercent);

    /// <summary>
    /// Share of a zone's water that counts towards a depth, in per cent: its efficiency, or what its uniformity leaves, never
    /// both; all of it where it says neither.
    /// </summary>
    public static decimal ShareThatCounts(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone.EfficiencyPercent ?? (zone.UniformityPercent is { } uniformity ? ShareOf(uniformity) : Whole);
    }

    /// <summary>The reciprocal of the multiplier in per cent, which is exact where the multiplier is not.</summary>
    private static decimal ShareOf(decimal lowQuarterPercent) => 40 + (0.6m * lowQuarterPercent);
}
