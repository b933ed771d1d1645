using System.Globalization;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>A piece of the hours that is shown.</summary>
/// <param name="From">First second since noon.</param>
/// <param name="Until">The second after the last.</param>
/// <param name="X">Its left edge.</param>
/// <param name="Width">Its width.</param>
internal sealed record AxisPiece(double From, double Until, double X, double Width);

/// <summary>Hours that are folded away.</summary>
/// <param name="X">The left edge of their mark.</param>
/// <param name="Seconds">How long.</param>
internal sealed record AxisFold(double X, double Seconds);

/// <summary>One scale over all pieces that are shown; what is left out between them is a fold of one width.</summary>
internal sealed class TimeAxis
{
    private const double HalfHour = 1800;
    private const double MiddleTicks = 58;
    private const double FineTicks = 72;
    private const double LongestTick = 21_600;
    private static readonly double[] TickSteps = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10800, 14400, LongestTick];

    /// <param name="pieces">What is shown, in seconds since noon.</param>
    /// <param name="sizes">The room for it.</param>
    /// <param name="most">The second at which the longest night ends.</param>
    /// <param name="zoom">1 for all of it.</param>
    /// <param name="pan">Pixels that it is moved to the left.</param>
    public TimeAxis(List<double[]> pieces, PictureSizes sizes, double most, double zoom = 1, double pan = 0)
    {
        double[] gaps = [.. pieces.Select((piece, index) => piece[0] - (index > 0 ? pieces[index - 1][1] : 0))];
        var rest = pieces.Count > 0 ? most - pieces[^1][1] : 0;
        var count = gaps.Count(gap => gap > 0) + (rest > 0 ? 1 : 0);
        var kept = pieces.Sum(piece => piece[1] - piece[0]);
        Scale = Math.Max(1, sizes.Room - (count * sizes.Fold)) / Math.Max(1, kept) * zoom;
        (Left, Right, Fold) = (sizes.Left, sizes.Left + sizes.Room, sizes.Fold);
        var x = sizes.Left - pan;
        foreach (var (index, piece) in pieces.Index())
        {
            if (gaps[index] > 0)
            {
                Folds.Add(new AxisFold(x, gaps[index]));
                x += Fold;
            }

            Shown.Add(new AxisPiece(piece[0], piece[1], x, (piece[1] - piece[0]) * Scale));
            x += (piece[1] - piece[0]) * Scale;
        }

        if (rest > 0) Folds.Add(new AxisFold(x, rest));
    }

    /// <summary>What is shown.</summary>
    public List<AxisPiece> Shown { get; } = [];

    /// <summary>What is folded away.</summary>
    public List<AxisFold> Folds { get; } = [];

    /// <summary>Pixels for each second.</summary>
    public double Scale { get; }

    /// <summary>The width of a fold.</summary>
    public double Fold { get; }

    /// <summary>The left edge of what is seen.</summary>
    public double Left { get; }

    /// <summary>The right edge of it.</summary>
    public double Right { get; }

    /// <summary>Where a second since noon is drawn; in the middle of a fold where it is folded away.</summary>
    public double X(double at)
    {
        var x = Left;
        foreach (var piece in Shown)
        {
            if (at < piece.From) return piece.X - (Folds.Exists(each => each.X == piece.X - Fold) ? Fold / 2 : 0);
            x = piece.X + piece.Width;
            if (at <= piece.Until) return piece.X + ((at - piece.From) * Scale);
        }

        return x + (Fold / 2);
    }

    /// <summary>The second since noon that is drawn at a place.</summary>
    public double TimeAt(double x)
    {
        var at = 0.0;
        foreach (var piece in Shown)
        {
            if (x < piece.X) return piece.From;
            at = piece.Until;
            if (x <= piece.X + piece.Width) return piece.From + ((x - piece.X) / Scale);
        }

        return at;
    }

    /// <summary>Whether a second is not folded away.</summary>
    public bool Shows(double at) => Shown.Exists(piece => at >= piece.From && at <= piece.Until);

    /// <summary>The visible pieces of stretches of time, in pixels.</summary>
    public List<(double From, double Until)> Pieces(IReadOnlyList<NightSpan> spans)
    {
        var all = new List<(double From, double Until)>();
        foreach (var piece in Shown)
        {
            foreach (var span in spans)
            {
                var (from, until) = (Math.Max(span.From, piece.From), Math.Min(span.Until, piece.Until));
                var (left, right) = (Math.Max(Left, X(from)), Math.Min(Right, X(until)));
                if (until > from && right - left >= 0.5) all.Add((left, right));
            }
        }

        return all;
    }

    /// <summary>How much is folded away, to the half hour: <c>3½ h</c>.</summary>
    public static string Folded(double seconds)
    {
        if (seconds < 2 * HalfHour) return string.Create(CultureInfo.InvariantCulture, $"{Math.Floor((seconds / 60) + 0.5)} min");
        var halves = (int)Math.Floor((seconds / HalfHour) + 0.5);
        return string.Create(CultureInfo.InvariantCulture, $"{halves / 2}{(halves % 2 == 1 ? "½" : "")} h");
    }

    /// <summary>When the clock shows a round time, as close as there is room for.</summary>
    /// <param name="night">Knows what the clock shows.</param>
    /// <param name="isFine">Whether labels have seconds.</param>
    public List<double> Ticks(Night night, bool isFine)
    {
        var step = TickSteps.Where(each => each * Scale >= (isFine ? FineTicks : MiddleTicks)).DefaultIfEmpty(LongestTick).First();
        var ticks = new List<double>();
        foreach (var piece in Shown)
        {
            var from = Math.Max(piece.From, Math.Floor(TimeAt(Left)) - step);
            var until = Math.Min(piece.Until, Math.Ceiling(TimeAt(Right)) + step);
            for (var at = from; at <= until; at++)
            {
                var off = ((((Night.Noon + at + night.ShiftAt(at)) % step) + step) % step);
                if (off == 0)
                {
                    ticks.Add(at);
                    continue;
                }

                var next = at + step - off;
                // The clock may change before the next one: then it is looked for from there.
                var change = night.Shifts.Where(shift => shift.At > at && shift.At <= next).Select(shift => (double?)shift.At).FirstOrDefault();
                at = (change ?? next) - 1;
            }
        }

        return ticks;
    }
}
