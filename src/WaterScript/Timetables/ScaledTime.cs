using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>How long a zone is watered after scale and trim: their product with the written time, rounded once, half up, to the whole second.</summary>
internal static class ScaledTime
{
    /// <summary>Seconds of a zone; 0 when the watering is left out.</summary>
    /// <param name="written">Seconds as written.</param>
    /// <param name="scalePercent">The scale's share.</param>
    /// <param name="zone">The zone, for its trim.</param>
    public static long Of(long written, decimal scalePercent, Zone zone) =>
        (long)Math.Round(written * scalePercent * zone.TrimPercent / 10_000, MidpointRounding.AwayFromZero);

    /// <summary>Whether scale and trim bring a watering to nothing, or under the zone's shortest although it was written longer.</summary>
    public static bool IsLeftOut(long written, long scaled, Zone zone)
    {
        if (scaled == 0) return true;
        var shortest = zone.Shortest?.WholeSeconds() ?? 0;
        return written >= shortest && scaled < shortest;
    }
}
