using System.Globalization;
using System.Text;
using WaterScript.Wording;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// Draws a night: a lane for each zone that is watered, under them devices and curves. Words are placed by the widths of letters, so that none lies on
/// another. The script of a page (<c>Script/night.js</c>) draws the same to the letter, at any width and zoom; what is changed here is changed there.
/// </summary>
internal sealed partial class NightDrawing
{
    private const double Bar = 16;
    private readonly Picture _picture;
    private readonly Night _night;
    private readonly TimeAxis _axis;
    private readonly PictureSizes _sizes;
    private readonly NightOptions _options;
    private readonly bool _isFine;
    private readonly StringBuilder _ground = new();
    private readonly StringBuilder _lines = new();
    private readonly StringBuilder _marks = new();
    private readonly StringBuilder _words = new();
    private readonly StringBuilder _top = new();
    private readonly StringBuilder _foot = new();
    private readonly List<(double From, double Until)> _bands = [];
    private readonly List<NightLane> _lanes = [];
    private readonly Dictionary<NightRow, int> _numbers = new(ReferenceEqualityComparer.Instance);
    private readonly List<NightFinding> _findings;
    private readonly List<double> _ticks;
    private double _skyY;
    private double _lanesY;

    private NightDrawing(Picture picture, Night night, TimeAxis axis, PictureSizes sizes, NightOptions options)
    {
        (_picture, _night, _axis, _sizes, _options) = (picture, night, axis, sizes, options);
        _isFine = axis.Scale > 0.6;
        foreach (var (index, row) in night.Rows.Index()) _numbers[row] = index;
        foreach (var (index, row) in night.Held.Index()) _numbers[row] = index;
        _findings = [.. night.Findings.Where(finding => IsSeen(finding.At, finding.At))];
        _ticks = axis.Ticks(night, _isFine);
    }

    /// <summary>A night as an element of SVG, and its height.</summary>
    public static (string Svg, double Height) Draw(Picture picture, Night night, TimeAxis axis, PictureSizes sizes, NightOptions options) =>
        new NightDrawing(picture, night, axis, sizes, options).Draw();

    private (string Svg, double Height) Draw()
    {
        var y = _options.HasHours ? 30.0 : 8;
        _skyY = y - 8;
        if (_options.HasHours) DrawHours();
        y = DrawForbiddenWords(y);
        y = DrawLooseFindings(y);
        _lanesY = y;
        y = AddLanes(y);
        DrawNames();
        foreach (var lane in _lanes) DrawLane(lane);
        var threads = Threads();
        y = DrawDevices(y);
        y = DrawPanels(y);
        DrawSky();
        DrawForbidden();
        DrawGrid(y);
        var folds = Folds(y);
        y = DrawFoot(y);
        var height = Math.Ceiling(y);
        var (width, tall) = (Number(_sizes.Width), Number(height));
        var id = string.Create(CultureInfo.InvariantCulture, $"night-{_night.Id}");
        var frame = $"<rect x=\"{Number(_axis.Left)}\" y=\"-2\" width=\"{Number(_axis.Right - _axis.Left)}\" height=\"{Number(height + 4)}\"/>";
        var svg = $"<svg class=\"sheet\" width=\"{width}\" height=\"{tall}\" viewBox=\"0 0 {width} {tall}\" role=\"group\" " +
            $"aria-label=\"{Escaped(_night.Title)}\"><clipPath id=\"{id}\">{frame}</clipPath>{_ground}" +
            $"<g clip-path=\"url(#{id})\">{folds}{threads}{_marks}</g>{_lines}{_top}{_words}{_foot}</svg>";
        return (svg, height);
    }

    private double X(double at) => _axis.X(at);

    private List<(double From, double Until)> Pieces(IReadOnlyList<NightSpan> spans) => _axis.Pieces(spans);

    private bool IsSeen(double from, double until) => X(until) > _axis.Left - 1 && X(from) < _axis.Right + 1;

    private string Clock(double at) => _night.Clock(at, _isFine);

    private void DrawHours()
    {
        var last = -99.0;
        foreach (var at in _ticks)
        {
            var x = X(at);
            if (x < _axis.Left - 1 || x > _axis.Right + 1) continue;
            var words = _night.Clock(at, _isFine && _axis.Scale > 2);
            var half = Letters.Width(words) / 2;
            var middle = Math.Max(half, Math.Min(_sizes.Width - half, x));
            if (middle - half < last + 6) continue;
            _top.Append(Words(middle - half, 12, words, "s"));
            last = middle + half;
        }

        if (_sizes.Right > 0) _top.Append(Words(_sizes.Width - 82, 12, "time", "s e")).Append(Words(_sizes.Width, 12, "water", "s e"));
    }

    /// <summary>What is forbidden, named once over its widest piece, with a line over all of them.</summary>
    private double DrawForbiddenWords(double y)
    {
        var shown = _night.Forbidden.Where(each => Pieces(each.Spans).Count > 0).ToList();
        if (shown.Count == 0 || !_options.HasHours) return y;
        var used = -99.0;
        foreach (var forbidden in shown)
        {
            var pieces = Pieces(forbidden.Spans);
            foreach (var (from, until) in pieces) _top.Append(Path("ax", $"M{Number(from)} {Number(y + 19)}H{Number(until)}"));
            var widest = pieces.Aggregate((best, piece) => piece.Until - piece.From > best.Until - best.From ? piece : best);
            var room = _axis.Right - Math.Max(used + 8, _axis.Left);
            if (new[] { $"no water allowed: {forbidden.Name}", "no water allowed" }.FirstOrDefault(each => Letters.Width(each) <= room) is not { } words)
                continue;
            var x = Math.Max(Math.Max(used + 8, _axis.Left), Math.Min(widest.From, _axis.Right - Letters.Width(words)));
            _top.Append(Words(x, y + 14, words, "s"));
            used = x + Letters.Width(words);
        }

        return y + 22;
    }

    /// <summary>Findings that are about no zone stand in a line of their own over the lanes.</summary>
    private double DrawLooseFindings(double y)
    {
        var loose = _findings.FindAll(each => each.Zone < 0);
        if (loose.Count == 0) return y;
        DrawFindings(loose, y + 14, y + 25);
        return y + 30;
    }

    private double AddLanes(double y)
    {
        var (rows, held, findings) =
            (_night.Rows.ToLookup(row => row.Zone), _night.Held.ToLookup(row => row.Zone), _findings.ToLookup(finding => finding.Zone));
        foreach (var zone in _night.Rows.Concat(_night.Held).Select(row => row.Zone).Distinct().OrderBy(zone => _picture.Order[zone]))
        {
            var hasComb = _sizes.IsWide && rows[zone].Concat(held[zone]).Any(row => row.IsComb && row.Every * _axis.Scale <= 90);
            var height = (_sizes.IsWide ? 30 : 44) + (hasComb ? 16 : 0) + (findings[zone].Any() ? 22 : 0);
            _lanes.Add(new NightLane(zone, y, height, y + height - (_sizes.IsWide ? 15 : 14), hasComb)
            {
                Rows = [.. rows[zone]],
                Held = [.. held[zone]],
                Findings = [.. findings[zone]],
            });
            y += height;
        }

        return y;
    }

    private void DrawNames()
    {
        string[] rights = [.. _lanes.Select(lane => _sizes.IsWide ? "" : Letters.Cut(Summary(lane), _sizes.Width * 0.66))];
        string[] names = [.. _lanes.Select(lane => _picture.Zones[lane.Zone])];
        var most = rights.Select(Letters.Width).Append(0).Max();
        var cut = Letters.CutAll(names, _sizes.IsWide ? _sizes.Left - 14 : _sizes.Width - most - 12);
        var figures = _night.Figures.ToDictionary(each => each.Zone);
        foreach (var (index, lane) in _lanes.Index())
        {
            if (_sizes.IsWide)
            {
                var y = lane.Middle + 4 - (lane.HasComb && lane.Findings.Count == 0 ? 8 : 0);
                _lines.Append($"<text x=\"0\" y=\"{Number(y)}\"><title>{Escaped(names[index])}</title>{Escaped(cut[index])}</text>");
                var own = figures[lane.Zone];
                if (_sizes.Right > 0) _lines.Append(Words(_sizes.Width - 82, y, own.Time, "e")).Append(Words(_sizes.Width, y, own.Water, "e"));
            }
            else
            {
                _lines.Append(Words(0, lane.Y + 13, cut[index], "halo")).Append(Words(_sizes.Width, lane.Y + 13, rights[index], "s e halo"));
            }

            _bands.Add((lane.Middle - 10, lane.Middle + 11));
        }
    }

    /// <summary>A lane in words, where it is narrow: <c>21:30–00:48, 2 × 22 min</c>.</summary>
    private string Summary(NightLane lane)
    {
        List<NightRow> all = [.. lane.Rows, .. lane.Held];
        if (lane.Held.Count == 0 && all.TrueForAll(row => row.IsComb && row.Every == all[0].Every))
            return string.Create(CultureInfo.InvariantCulture, $"every {Phrases.Length(all[0].Every)}, {all.Sum(row => row.Times)} times");
        var times = $"{_night.Clock(all.Min(row => row.Start), withSeconds: false)[..5]}–{_night.Clock(all.Max(row => row.End), withSeconds: false)[..5]}";
        if (lane.Rows.Count == 0) return $"{times}, {lane.Held[0].Cause}";
        var groups = GroupsOf(lane);
        return groups.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $"{times}, {groups.Count} passes") : $"{times}, {Lengths(groups[0].Rows)}";
    }

    private void DrawLane(NightLane lane)
    {
        var groups = GroupsOf(lane).FindAll(group => IsSeen(group.Rows[0].Start, group.Rows.Max(row => row.End)));
        foreach (var group in groups)
        {
            if (group.IsComb) DrawComb(lane, group.Rows[0], group.IsHeld);
            else DrawBars(lane, group);
        }

        foreach (var fold in _axis.Folds.Where(fold => fold.X > _axis.Left + 1 && fold.X + _axis.Fold < _axis.Right - 1))
            lane.Taken.Add((fold.X + 6, fold.X + _axis.Fold - 6));
        if (lane.Findings.Count > 0) DrawFindings(lane.Findings, lane.Middle - (lane.HasComb ? 36 : 20), lane.Middle - 8);
        foreach (var group in groups)
        {
            if (group.IsComb) LabelComb(lane, group.Rows[0], group.IsHeld, groups);
            else if (_sizes.IsWide) LabelBars(lane, group);
        }

        DrawSoaks(lane);
        foreach (var label in lane.Labels) _words.Append(Words(label.X, lane.Middle + 4, label.Words, label.Kind));
    }
}
