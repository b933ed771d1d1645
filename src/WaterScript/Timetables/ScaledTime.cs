using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>How long a zone is watered after scale and trim: their product with the written time, rounded once, half up, to the whole second.</summary>
internal static class ScaledTime
{
    /// <summary>
    /// What can be distinguished of a second. A time calculated from an amount may not end, so that the last of its 28 digits is
    /// off; that must not turn half a second into less than one.
    /// </summary>
    private const int Decimals = 9;

    /// <summary>Seconds of a zone; 0 when the watering is left out.</summary>
    /// <param name="written">Seconds as written, or as calculated from a written amount.</param>
    /// <param name="scalePercent">The scale's share.</param>
    /// <param name="zone">The zone, for its trim.</param>
    public static long Of(decimal written, decimal scalePercent, Zone zone) => Rounded(written * scalePercent * zone.TrimPercent / 10_000);

    /// <summary>Half up to the whole second.</summary>
    public static long Rounded(decimal seconds) => (long)Math.Round(Math.Round(seconds, Decimals), MidpointRounding.AwayFromZero);

    /// <summary>
    /// Whether scale and trim bring a watering to nothing, or under the zone's shortest although it was written longer. A time calculated from an amount
    /// that comes to just the shortest is not shorter for its last digit.
    /// </summary>
    public static bool IsLeftOut(decimal written, long scaled, Zone zone)
    {
        if (scaled == 0) return true;
        var shortest = zone.Shortest?.WholeSeconds() ?? 0;
        return Math.Round(written, Decimals) >= shortest && scaled < shortest;
    }
}
