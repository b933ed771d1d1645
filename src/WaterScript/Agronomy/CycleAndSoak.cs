using WaterScript.Model;

namespace WaterScript.Agronomy;

/// <summary>A watering split into the fewest equal pieces: whole seconds that differ by at most one, the longer ones first.</summary>
internal static class CycleAndSoak
{
    /// <summary>The fewest pieces of which none is longer than a length.</summary>
    /// <param name="seconds">The whole watering, 1 or more.</param>
    /// <param name="longest">The longest piece in seconds, 1 or more.</param>
    public static long Pieces(long seconds, long longest) => ((seconds - 1) / longest) + 1;

    /// <summary>Seconds of a piece; 0 where there are more pieces than seconds.</summary>
    /// <param name="seconds">The whole watering.</param>
    /// <param name="pieces">Into how many pieces it is split.</param>
    /// <param name="number">Which piece, from 1.</param>
    public static long Piece(long seconds, long pieces, long number) => (seconds / pieces) + (number <= seconds % pieces ? 1 : 0);

    /// <summary>
    /// The longest piece of zones that are on together, in seconds: as the cycle says, or the longest run of any of them before water runs off.
    /// </summary>
    /// <param name="cycle">The cycle.</param>
    /// <param name="zones">Zones of which the binder has found all that a cycle without lengths needs.</param>
    public static long LongestPiece(CycleStep cycle, IEnumerable<Zone> zones)
    {
        ArgumentNullException.ThrowIfNull(cycle);
        var seconds = cycle.Cycle is { } written
            ? (long)written.TotalSeconds
            : zones.Min(zone => Infiltration.Of(zone)?.LongestWholeRun ?? (long)RunTime.Longest);
        return Math.Max(1, seconds);
    }

    /// <summary>The least time in seconds from a piece of a zone to its next: as the cycle says, or until what stands on the ground has gone in.</summary>
    /// <param name="cycle">The cycle.</param>
    /// <param name="zone">A zone.</param>
    /// <param name="piece">Seconds of its longest piece.</param>
    public static long Soak(CycleStep cycle, Zone zone, long piece)
    {
        ArgumentNullException.ThrowIfNull(cycle);
        return cycle.Soak is { } written ? (long)written.TotalSeconds : Infiltration.Of(zone)?.LeastWholeSoak(piece) ?? 0;
    }
}
