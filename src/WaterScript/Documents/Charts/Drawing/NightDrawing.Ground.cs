using System.Text;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// What lies under and beside the lanes: threads, sky, forbidden hours, grid, folds, devices, flow, level and power; <c>Script/ground.js</c> draws the same.
/// </summary>
internal sealed partial class NightDrawing
{
    /// <summary>Where a pass goes on in another zone, and the pause before.</summary>
    private string Threads()
    {
        var middles = _lanes.ToDictionary(lane => lane.Zone, lane => lane.Middle);
        var (lines, pauses) = (new StringBuilder(), new StringBuilder());
        foreach (var pass in _night.Rows.Where(row => !row.IsComb).GroupBy(row => (row.Schedule, row.Pass)))
        {
            NightRow[] starts = [.. pass.OrderBy(row => row.Start)];
            NightRow[] ends = [.. pass.OrderBy(row => row.End)];
            var done = 0;
            for (var i = 0; i < starts.Length;)
            {
                var at = starts[i].Start;
                var next = new List<double>();
                for (; i < starts.Length && starts[i].Start == at; i++) next.Add(middles[starts[i].Zone]);
                while (done < ends.Length && ends[done].End <= at + 1) done++;
                if (done == 0) continue;
                var end = ends[done - 1].End;
                var before = new List<double>();
                for (var k = done - 1; k >= 0 && ends[k].End == end; k--) before.Add(middles[ends[k].Zone]);
                var (high, low) = (Math.Min(next.Min(), before.Min()), Math.Max(next.Max(), before.Max()));
                var x = X(at);
                if (high == low || x < _axis.Left || x > _axis.Right) continue;
                lines.Append($"M{Number(x)} {Number(high)}V{Number(low)}");
                if (at - end <= 1 || x - X(end) <= 3) continue;
                foreach (var middle in before) pauses.Append($"M{Number(Math.Max(_axis.Left, X(end)))} {Number(middle)}H{Number(x)}");
            }
        }

        return Path("thread", lines.ToString()) + Path("thread pause", pauses.ToString());
    }

    private void DrawSky()
    {
        if (!_night.HasSun) return;
        foreach (var (from, until) in Pieces([new NightSpan(0, _night.Length)])) _ground.Append(Box("day", from + 0.5, _skyY - 1.5, until - from - 1, 4));
        foreach (var (from, until) in Pieces(_night.Dark)) _ground.Append(Box("dark", from, _skyY - 2, until - from, 5));
    }

    private void DrawForbidden()
    {
        foreach (var forbidden in _night.Forbidden)
        {
            foreach (var lane in _lanes.Where(lane => forbidden.Zones.Contains(lane.Zone)))
            {
                var (above, less) = _sizes.IsWide ? (2, 4) : (18, 20);
                foreach (var (from, until) in Pieces(forbidden.Spans))
                    _ground.Append(Box("forbidden", from, lane.Y + above, until - from, lane.Height - less));
                DrawForbiddenFolds(lane, forbidden);
            }
        }
    }

    /// <summary>Forbidden hours that are folded away are marked on the fold.</summary>
    private void DrawForbiddenFolds(NightLane lane, NightForbidden forbidden)
    {
        foreach (var fold in _axis.Folds)
        {
            double until = _axis.Shown.Find(each => Math.Abs(each.X - fold.X - _axis.Fold) < 0.01)?.From ?? _night.Length;
            var from = until - fold.Seconds;
            if (fold.X < _axis.Left - 1 || fold.X + _axis.Fold > _axis.Right + 1) continue;
            if (forbidden.Spans.Any(span => span.From < until && span.Until > from))
                _ground.Append(Box("forbidden", fold.X, lane.Middle - 10, _axis.Fold, 20));
        }
    }

    private void DrawGrid(double y)
    {
        var (minor, major) = (new StringBuilder(), new StringBuilder());
        foreach (var at in _ticks)
        {
            var x = X(at);
            if (x < _axis.Left - 0.5 || x > _axis.Right + 0.5) continue;
            var isMidnight = (Night.Noon + at + _night.ShiftAt(at)) % 86_400 == 0;
            foreach (var (from, until) in _sizes.IsWide ? [(_skyY + 4, y)] : _bands)
                (isMidnight ? major : minor).Append($"M{Number(x)} {Number(from)}V{Number(until)}");
        }

        var end = Number(_sizes.Right > 0 || !_sizes.IsWide ? _sizes.Width : _axis.Right);
        foreach (var lane in _lanes) minor.Append($"M0 {Number(lane.Y + lane.Height - 0.5)}H{end}");
        _ground.Append(Path("hair", minor.ToString())).Append(Path("rule", major.ToString()));
    }

    private string Folds(double y)
    {
        var marks = new StringBuilder();
        foreach (var fold in _axis.Folds)
        {
            if (fold.X + _axis.Fold < _axis.Left || fold.X > _axis.Right) continue;
            if (_sizes.IsWide && _night.Forbidden.IsEmpty) marks.Append(Box("paper", fold.X, _lanesY - 1, _axis.Fold, y - _lanesY + 2));
            var middle = fold.X + (_axis.Fold / 2);
            var lines = new StringBuilder();
            foreach (var (from, until) in _sizes.IsWide ? [(_lanesY, y)] : _bands)
                lines.Append($"M{Number(middle - 4)} {Number(from)}V{Number(until)}M{Number(middle + 4)} {Number(from)}V{Number(until)}");
            marks.Append(Path("rule fold", lines.ToString()));
        }

        return marks.ToString();
    }

    private double DrawFoot(double y)
    {
        var bottom = y;
        if (_options.HasFoot)
        {
            DrawFootWords(y);
            bottom += 22;
        }

        if (_options.Thumb is { } thumb)
        {
            var width = _axis.Right - _axis.Left;
            _foot.Append(Path("rule", $"M{Number(_axis.Left)} {Number(bottom + 7)}H{Number(_axis.Right)}"))
                .Append(Box("dark", _axis.Left + (width * thumb.From), bottom + 4.5, Math.Max(8, width * (thumb.Until - thumb.From)), 5));
            bottom += 14;
        }

        return bottom;
    }

    private void DrawFootWords(double y)
    {
        var used = new List<(double From, double Until)>();
        bool Place(double x, string words)
        {
            var from = Math.Max(0, Math.Min(_sizes.Width - Letters.Width(words), x));
            if (used.Exists(each => from < each.Until + 6 && from + Letters.Width(words) > each.From - 6)) return false;
            used.Add((from, from + Letters.Width(words)));
            _foot.Append(Words(from, y + 16, words, "s"));
            return true;
        }

        foreach (var fold in _axis.Folds)
        {
            if (fold.X + _axis.Fold <= _axis.Left || fold.X >= _axis.Right) continue;
            var words = TimeAxis.Folded(fold.Seconds);
            Place(fold.X + (_axis.Fold / 2) - (Letters.Width(words) / 2), words);
        }

        foreach (var note in _night.Sun)
        {
            var x = X(note.At);
            if (!_axis.Shows(note.At) || x <= _axis.Left || x >= _axis.Right) continue;
            if (Place(x - (Letters.Width(note.Words) / 2), note.Words) || Place(x + 4, note.Words) || Place(x - 4 - Letters.Width(note.Words), note.Words))
                _foot.Append(Path("rule", $"M{Number(x)} {Number(y)}v5"));
        }
    }

    private const double PanelHeight = 44;
    private const double PanelFoot = 8;
    private const double Headroom = 1.12;

    private double DrawDevices(double y)
    {
        if (!_options.HasPanels || _night.Devices.IsEmpty) return y;
        var top = y + 6;
        foreach (var device in _night.Devices)
        {
            var middle = top + (_sizes.IsWide ? 12 : 28);
            _lines.Append(Words(0, _sizes.IsWide ? middle + 4 : top + 14, Letters.Cut(device.Name, _sizes.IsWide ? _sizes.Left - 14 : _sizes.Width), "s"));
            if (_sizes.Right > 0) _lines.Append(Words(_sizes.Width - 82, middle + 4, device.Total, "s e"));
            var boxes = new StringBuilder();
            foreach (var span in device.Spans.Where(span => IsSeen(span.From, span.Until)))
            {
                var (from, until) = (X(span.From), Math.Max(X(span.From) + 2, X(span.Until)));
                boxes.Append($"M{Number(from)} {Number(middle - 6)}H{Number(until)}v12H{Number(from)}z");
            }

            _marks.Append(Path("device", boxes.ToString()));
            if (!_sizes.IsWide) _bands.Add((middle - 10, middle + 10));
            top += _sizes.IsWide ? 24 : 38;
        }

        return top;
    }

    private double DrawPanels(double y)
    {
        var top = y;
        foreach (var panel in _night.PanelsShown(_options.HasPanels))
        {
            top += _sizes.IsWide ? 16 : 30;
            DrawPanel(panel, top);
            _bands.Add((top, top + PanelHeight));
            top += PanelHeight;
        }

        // What stands at the foot of the last curve has room where nothing else follows.
        return top > y && !_options.HasFoot ? top + PanelFoot : top;
    }

    private void DrawPanel(NightPanel panel, double top)
    {
        var most = panel.Greatest * Headroom;
        var bottom = top + PanelHeight;
        double Y(double value) => bottom - (value / most * PanelHeight);
        var (area, line) = (new StringBuilder(), new StringBuilder());
        foreach (var piece in _axis.Shown)
        {
            var drawn = Curve(panel, piece, Y);
            line.Append('M').Append(drawn);
            area.Append($"M{Number(X(piece.From))} {Number(bottom)}L{drawn}V{Number(bottom)}z");
        }

        var ticks = string.Concat(
            panel.Rushes.Where(rush => IsSeen(rush.At, rush.At)).Select(rush => $"M{Number(X(rush.At))} {Number(bottom)}V{Number(Y(rush.Value))}"));
        _marks.Append(Path("wash", area.ToString())).Append(Path("ax rush", ticks));
        if (panel.Limit is { } bound)
        {
            foreach (var (from, until) in Pieces(panel.Beyond))
            {
                _marks.Append(panel.Kind == "level"
                    ? Box("over", from, Math.Min(Y(bound), bottom - 7), until - from, Math.Max(7, bottom - Y(bound)))
                    : Box("over", from, top, until - from, Math.Max(7, Y(bound) - top)));
            }
        }

        _marks.Append(Path("wl", line.ToString())).Append(Path("rule", $"M{Number(_axis.Left)} {Number(bottom)}H{Number(_axis.Right)}"));
        if (panel.Limit is > 0) _marks.Append(Path("limit", $"M{Number(_axis.Left)} {Number(Y(panel.Limit.Value))}H{Number(_axis.Right)}"));
        WritePanel(panel, top, Y);
    }

    private void WritePanel(NightPanel panel, double top, Func<double, double> y)
    {
        var bottom = top + PanelHeight;
        if (!_sizes.IsWide)
        {
            var (both, room) = ($"{panel.Note}, {panel.LimitWords}", _sizes.Width * 0.62);
            var words = panel.LimitWords.Length > 0 && Letters.Width(both) <= room ? both : Letters.Cut(panel.Note, room);
            _lines.Append(Words(0, top - 6, Letters.Cut(panel.Name, _sizes.Width - Letters.Width(words) - 12), ""))
                .Append(Words(_sizes.Width, top - 6, words, "s e"));
            return;
        }

        _lines.Append(Words(0, top + 16, Letters.Cut(panel.Name, _sizes.Left - 14), ""))
            .Append(Words(0, top + 32, Letters.Cut(panel.Note, _sizes.Left - 14), "s"));
        var hasLimit = panel.Limit is > 0 && _sizes.Right > 0;
        if (hasLimit) _lines.Append(Words(_axis.Right + 8, y(panel.Limit!.Value) + 4, Letters.Cut(panel.LimitWords, _sizes.Right - 8), "s"));
        if (!hasLimit || bottom - y(panel.Limit!.Value) > 14)
            _lines.Append(Words(_axis.Right + 8, bottom + 4, Letters.Cut(panel.Zero, (_sizes.Right > 0 ? _sizes.Right : 64) - 8), "s"));
    }

    /// <summary>A curve within a piece of the axis: steps, or of a level straight lines between its points.</summary>
    private string Curve(NightPanel panel, AxisPiece piece, Func<double, double> y)
    {
        var (points, isLevel, i) = (panel.Points, panel.Kind == "level", 0);
        while (i + 1 < points.Length && points[i + 1].At <= piece.From) i++;
        double ValueAt(double at) => isLevel && i + 1 < points.Length && points[i + 1].At > points[i].At
            ? points[i].Value + ((points[i + 1].Value - points[i].Value) * (at - points[i].At) / (points[i + 1].At - points[i].At))
            : points[i].Value;
        var drawn = new StringBuilder($"{Number(X(piece.From))} {Number(y(ValueAt(piece.From)))}");
        for (; i + 1 < points.Length && points[i + 1].At < piece.Until; i++)
        {
            var (at, value) = points[i + 1];
            drawn.Append(isLevel ? $"L{Number(X(at))} {Number(y(value))}" : $"H{Number(X(at))}V{Number(y(value))}");
        }

        return drawn.Append(isLevel ? $"L{Number(X(piece.Until))} {Number(y(ValueAt(piece.Until)))}" : $"H{Number(X(piece.Until))}").ToString();
    }
}
