using System.Collections.Immutable;
using WaterScript.Quantities;

namespace WaterScript.Documents.Charts;

/// <summary>A number over a day of a chart.</summary>
/// <param name="Kind">What it shows.</param>
/// <param name="Name">Of what: the supply or the controller.</param>
/// <param name="Corners">In order of time, the first at the day's beginning and the last at its end; joined by straight lines.</param>
/// <param name="Limit">Over which, of a level under which, it must not go; null where none is given.</param>
/// <param name="Top">The greatest number that it could be drawn for, above zero.</param>
/// <param name="Unit">What people read it in.</param>
/// <param name="Words">What it comes to: <c>up to 26.0 of 25.0 L/min</c>.</param>
/// <param name="LimitWords">What the limit is: <c>gives 25.0 L/min</c>; empty without one.</param>
internal sealed record ChartCurve(
    CurveKind Kind, string Name, ImmutableArray<CurveCorner> Corners, decimal? Limit, decimal Top, Unit Unit, string Words, string LimitWords)
{
    /// <summary>What two equal sums of decimal numbers may differ by.</summary>
    private const decimal Tolerance = 0.000000000001m;

    /// <summary>What a controller gives as something opens; of the others nothing.</summary>
    public ImmutableArray<CurveCorner> Rushes { get; init; } = [];

    /// <summary>When it is beyond its limit.</summary>
    public ImmutableArray<ChartBand> Beyond { get; } = Limit is { } limit
        ? [.. Stretches(Corners, value => Kind == CurveKind.Level ? value < limit - Tolerance : value > limit + Tolerance)]
        : [];

    /// <summary>Stretches between whose corners both, or of steps the first, are so.</summary>
    private static IEnumerable<ChartBand> Stretches(ImmutableArray<CurveCorner> corners, Func<decimal, bool> isBeyond)
    {
        long? since = null;
        for (var i = 0; i < corners.Length; i++)
        {
            var isNow = isBeyond(corners[i].Value);
            if (isNow) since ??= corners[i].At;
            else if (since is { } from)
            {
                if (from < corners[i].At) yield return new ChartBand(from, corners[i].At);
                since = null;
            }
        }

        if (since is { } open && open < corners[^1].At) yield return new ChartBand(open, corners[^1].At);
    }
}
