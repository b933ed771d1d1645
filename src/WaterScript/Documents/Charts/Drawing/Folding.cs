namespace WaterScript.Documents.Charts.Drawing;

/// <summary>What is shown of the hours from noon to noon: those in which something happens, with some room around it.</summary>
internal sealed class Folding
{
    private const double Hour = 3600;
    private const int Rounds = 4;
    private const int Steps = 12;
    private readonly PictureSizes _sizes;
    private readonly List<double[]> _pieces;
    private readonly List<double[]> _events;
    private readonly double _step;

    private Folding(List<double[]> spans, PictureSizes sizes)
    {
        _sizes = sizes;
        var pieces = Joined(spans.OrderBy(span => span[0]).ThenBy(span => span[1]), 0.75 * Hour);
        var kept = JoinNear(pieces);
        _step = kept > 4 * Hour ? Hour / 2 : kept > 1.5 * Hour ? Hour / 4 : Hour / 12;
        var pad = kept > 4 * Hour ? 420 : 120;
        _events = [.. pieces.Select(piece => piece.ToArray())];
        _pieces = Joined(
            pieces.Select(piece => new[] { Math.Floor((piece[0] - pad) / _step) * _step, Math.Ceiling((piece[1] + pad) / _step) * _step }), Hour / 2);
    }

    /// <summary>The pieces that are shown, in seconds since noon.</summary>
    /// <param name="spans">When something happens.</param>
    /// <param name="sizes">The room that there is.</param>
    /// <param name="most">The second at which the longest night ends.</param>
    public static List<double[]> Pieces(List<double[]> spans, PictureSizes sizes, double most)
    {
        if (spans.Count == 0) return [];
        var folding = new Folding(spans, sizes);
        folding.Widen();
        return Joined(folding._pieces.Select(piece => new[] { Math.Max(0, piece[0]), Math.Min(most, piece[1]) }), 0.75 * Hour);
    }

    /// <summary>Joins neighbours whose gap is narrow beside what is kept, the narrowest first; gives the time kept.</summary>
    private static double JoinNear(List<double[]> pieces)
    {
        for (; ; )
        {
            var kept = pieces.Sum(piece => piece[1] - piece[0]);
            var allowed = Math.Max(0.75 * Hour, kept * 0.12);
            var narrowest = -1;
            for (var i = 1; i < pieces.Count; i++)
            {
                var gap = pieces[i][0] - pieces[i - 1][1];
                if (gap < allowed && (narrowest < 0 || gap < pieces[narrowest][0] - pieces[narrowest - 1][1])) narrowest = i;
            }

            if (narrowest < 0) return kept;
            pieces[narrowest - 1][1] = pieces[narrowest][1];
            pieces.RemoveAt(narrowest);
        }
    }

    private static List<double[]> Joined(IEnumerable<double[]> pieces, double gap)
    {
        var all = new List<double[]>();
        foreach (var piece in pieces)
        {
            if (all.Count > 0 && piece[0] - all[^1][1] < gap) all[^1][1] = Math.Max(all[^1][1], piece[1]);
            else all.Add([piece[0], piece[1]]);
        }

        return all;
    }

    /// <summary>Widens pieces until there is room for what stands in them; a few rounds, as each takes room from the others.</summary>
    private void Widen()
    {
        var (least, before, after) = _sizes.IsWide ? (108, 46, 50) : (34, 0, 0);
        for (var round = 0; round < Rounds; round++)
        {
            foreach (var piece in _pieces)
            {
                var own = _events.FindAll(each => each[1] >= piece[0] && each[0] <= piece[1]);
                for (var i = 0; i < Steps && (piece[1] - piece[0]) * Scale() < least && piece[1] - piece[0] < 8 * Hour; i++)
                {
                    piece[0] -= _step;
                    piece[1] += _step;
                }

                if (own.Count == 0) continue;
                for (var i = 0; i < Steps && piece[0] > 0 && (own[0][0] - piece[0]) * Scale() < before; i++) piece[0] -= _step;
                for (var i = 0; i < Steps && piece[1] < 25 * Hour && (piece[1] - own[^1][1]) * Scale() < after; i++) piece[1] += _step;
            }
        }
    }

    /// <summary>Pixels for each second.</summary>
    private double Scale() => Math.Max(1, _sizes.Room - (_sizes.Fold * (_pieces.Count + 1))) / _pieces.Sum(piece => piece[1] - piece[0]);
}
