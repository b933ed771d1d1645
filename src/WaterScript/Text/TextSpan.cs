namespace WaterScript.Text;

/// <summary>A stretch of a source in UTF-16 code units: <see cref="Start"/> is included, <see cref="End"/> is not.</summary>
/// <param name="Start">Offset of the first code unit, 0 or more.</param>
/// <param name="Length">Number of code units, 0 or more; 0 is a place between two characters.</param>
internal readonly record struct TextSpan(int Start, int Length)
{
    /// <summary>Offset just past the last code unit.</summary>
    public int End => Start + Length;

    /// <summary>The span from <paramref name="start"/> up to, not including, <paramref name="end"/>.</summary>
    public static TextSpan FromBounds(int start, int end) => new(start, end - start);

    /// <summary>The least span that holds both.</summary>
    public static TextSpan Cover(TextSpan first, TextSpan second) =>
        FromBounds(Math.Min(first.Start, second.Start), Math.Max(first.End, second.End));

    /// <summary>Whether <paramref name="other"/> lies inside this span.</summary>
    public bool Contains(TextSpan other) => Start <= other.Start && other.End <= End;
}
