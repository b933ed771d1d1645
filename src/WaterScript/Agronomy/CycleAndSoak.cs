namespace WaterScript.Agronomy;

/// <summary>A watering split into the fewest equal pieces: whole seconds that differ by at most one, the longer ones first.</summary>
public static class CycleAndSoak
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
}
