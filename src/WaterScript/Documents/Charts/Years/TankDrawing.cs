using System.Globalization;
using System.Text;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Language;
using WaterScript.Wording;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Years;

/// <summary>Draws what tanks hold over a year, on the axis of the ground: the level, the reserve, and the days on which they cannot give all.</summary>
internal sealed class TankDrawing
{
    private const double StoreHeight = 104;
    private const double BlockGap = 26;

    /// <summary>The least that a mark of days without enough water measures.</summary>
    private const double LeastMark = 7;

    private readonly PictureSizes _sizes;
    private readonly WaterFigures _figures;
    private readonly YearLine _line;
    private readonly StringBuilder _svg = new();

    private TankDrawing(YearChart year, PictureSizes sizes) =>
        (_sizes, _figures, _line) = (sizes, new WaterFigures(year.Site), new YearLine(year, sizes));

    /// <summary>The tanks as an element of SVG; nothing where there is none.</summary>
    public static string Draw(YearChart year, PictureSizes sizes) => year.Tanks.IsEmpty ? "" : new TankDrawing(year, sizes).DrawAll(year);

    private string DrawAll(YearChart year)
    {
        var y = 20.0;
        _svg.Append(_line.Months(12));
        foreach (var tank in year.Tanks) y = DrawTank(tank, y) + BlockGap;
        var (width, tall) = (Number(_sizes.Width), Number(Math.Ceiling(y)));
        return $"<svg class=\"sheet\" width=\"{width}\" height=\"{tall}\" viewBox=\"0 0 {width} {tall}\" role=\"img\" " +
            $"aria-label=\"What tanks hold\">{_svg}</svg>";
    }

    private double DrawTank(TankYear tank, double top)
    {
        var name = Plain(tank.Supply.DisplayName);
        if (!_sizes.IsWide)
        {
            _svg.Append(Words(0, top + 13, Letters.Cut(name, _sizes.Width), "halo"));
            top += 18;
        }

        var bottom = top + StoreHeight;
        DrawLevel(tank, top);
        _svg.Append(_line.Borders(top, bottom));
        if (!_sizes.IsWide)
        {
            _svg.Append(Words(0, bottom + 16, Letters.Cut($"{Down(tank)}, {ShortOf(tank)}", _sizes.Width), "s"));
            return bottom + 16;
        }

        _svg.Append(Words(0, top + 12, Letters.Cut(name, _line.Left - 50), "b"));
        WriteBeside(tank, top);
        return bottom;
    }

    private void DrawLevel(TankYear tank, double top)
    {
        var (full, bottom) = (tank.Supply.Tank!.Value.InBase, top + StoreHeight);
        double Y(decimal litres) => bottom - ((double)(litres / full) * StoreHeight);
        var curve = Curve(tank, Y);
        var limit = tank.Supply.Reserve is { } reserve ? Y(reserve.InBase) : bottom;
        var mark = Math.Min(limit, bottom - LeastMark);
        var dry = string.Concat(tank.ShortSpells().Select(spell => (From: _line.X(spell.From), Until: _line.X(spell.Until))).Select(spell =>
            $"M{Number(spell.From)} {Number(mark)}V{Number(bottom)}H{Number(Math.Max(spell.From + 2, spell.Until))}V{Number(mark)}z"));
        _svg.Append(Path("wash", $"M{Number(_line.Left)} {Number(bottom)}L{curve}V{Number(bottom)}z")).Append(Path("over", dry))
            .Append(Path("wl", $"M{curve}"));
        if (limit < bottom) _svg.Append(Path("limit", $"M{Number(_line.Left)} {Number(limit)}H{Number(_line.Right)}"));
        var words = mark - 6 < top + 12 ? mark + 14 : mark - 6;
        _svg.Append(Path("rule", $"M{Number(_line.Left)} {Number(bottom)}H{Number(_line.Right)}"))
            .Append(_line.Spells(tank.ShortSpells(), days => string.Create(CultureInfo.InvariantCulture, $"{days} days short"), _ => words));
    }

    /// <summary>The corners that do not lie on a level line between those beside them.</summary>
    private string Curve(TankYear tank, Func<decimal, double> y)
    {
        var points = new List<string>();
        foreach (var (index, corner) in tank.Corners.Index())
        {
            var point = $"{Number(_line.X(corner.At))} {Number(y(corner.Litres))}";
            var isFlat = index > 0 && index + 1 < tank.Corners.Length && tank.Corners[index - 1].Litres == corner.Litres
                && tank.Corners[index + 1].Litres == corner.Litres;
            if (!isFlat && (points.Count == 0 || points[^1] != point)) points.Add(point);
        }

        return string.Join('L', points);
    }

    private void WriteBeside(TankYear tank, double top)
    {
        var (full, bottom) = (tank.Supply.Tank!.Value, top + StoreHeight);
        var limit = tank.Supply.Reserve is { } kept ? bottom - ((double)(kept.InBase / full.InBase) * StoreHeight) : bottom;
        var isApart = bottom - limit > 14 && bottom - limit < StoreHeight - 28;
        _svg.Append(Words(_line.Left - 10, top + 8, "full", "s e")).Append(Words(_line.Left - 10, bottom - 1, "empty", "s e"));
        if (isApart) _svg.Append(Words(_line.Left - 10, limit + 4, "reserve", "s e"));
        if (_sizes.Right == 0) return;
        var x = _line.Right + 8;
        _svg.Append(Words(x, top + 8, full.ToString(), "s"));
        if (isApart && tank.Supply.Reserve is { } reserve) _svg.Append(Words(x, limit + 4, reserve.ToString(), "s"));
        var lines = new[] { $"gives {_figures.Volume(tank.Drawn)}", Down(tank), ShortOf(tank) };
        var y = top + 23;
        foreach (var line in lines)
        {
            // The words of the reserve stand at their height; what would lie on them goes below.
            if (isApart && Math.Abs(limit + 4 - y) < 13) y = limit + 19;
            if (y < bottom + 1) _svg.Append(Words(x, y, Letters.Cut(line, _sizes.Right - 8), ""));
            y += 15;
        }
    }

    private string Down(TankYear tank) => $"down to {_figures.Volume(tank.Least)}";

    private static string ShortOf(TankYear tank) => tank.Short.IsEmpty ? "never short" : $"short on {Phrases.Count(tank.Short.Length, "day")}";
}
