using System.Globalization;
using System.Text;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Wording;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Years;

/// <summary>Draws the water in the root zone over a year: what comes above, what the ground holds in the middle, what runs through below.</summary>
internal sealed class GroundDrawing
{
    private const double InHeight = 30;
    private const double StoreHeight = 104;
    private const double OutHeight = 24;
    private const double BlockGap = 26;
    private readonly PictureSizes _sizes;
    private readonly WaterFigures _figures;
    private readonly YearLine _line;
    private readonly StringBuilder _svg = new();
    private readonly double _left;
    private readonly double _right;

    private GroundDrawing(YearChart year, PictureSizes sizes)
    {
        (_sizes, _figures) = (sizes, new WaterFigures(year.Site));
        _line = new YearLine(year, sizes);
        (_left, _right) = (_line.Left, _line.Right);
    }

    /// <summary>The grounds as an element of SVG; nothing where none is known.</summary>
    public static string Draw(YearChart year, IReadOnlyList<GroundYear> grounds, PictureSizes sizes) =>
        grounds.Count == 0 ? "" : new GroundDrawing(year, sizes).Draw(grounds);

    private string Draw(IReadOnlyList<GroundYear> grounds)
    {
        var y = 20.0;
        _svg.Append(_line.Months(12));
        foreach (var ground in grounds) y = DrawGround(ground, y) + BlockGap;
        var (width, tall) = (Number(_sizes.Width), Number(Math.Ceiling(y)));
        return $"<svg class=\"sheet\" width=\"{width}\" height=\"{tall}\" viewBox=\"0 0 {width} {tall}\" role=\"img\" " +
            $"aria-label=\"Water in the root zone\">{_svg}</svg>";
    }

    private double X(double day) => _line.X(day);

    private double DrawGround(GroundYear ground, double y)
    {
        var name = Plain(ground.Zones[0].DisplayName);
        var more = ground.Zones.Length > 1 ? $"and {string.Join(", ", ground.Zones.Skip(1).Select(zone => Plain(zone.DisplayName)))}, alike" : "";
        if (!_sizes.IsWide)
        {
            _svg.Append(Words(0, y + 13, Letters.Cut($"{name} {more}".TrimEnd(), _sizes.Width), "halo"));
            y += 18;
        }

        var (store, through) = (y + InHeight + 6, y + InHeight + 6 + StoreHeight);
        DrawIn(ground, y + InHeight);
        DrawStore(ground, store);
        DrawThrough(ground, through);
        _svg.Append(_line.Borders(y, through + OutHeight));
        if (!_sizes.IsWide) return WriteBelow(ground, through + OutHeight + 14);
        _svg.Append(Words(0, y + 12, Letters.Cut(name, _left - 14), "b")).Append(Words(0, y + 28, Letters.Cut(more, _left - 14), "s"));
        WriteBeside(ground, y, store, through);
        return through + OutHeight;
    }

    private void DrawIn(GroundYear ground, double bottom)
    {
        var most = Math.Max(1, ground.Days.Max(day => Math.Max(day.Watering, day.Rain)));
        double Y(decimal depth) => bottom - ((double)(depth / most) * InHeight);
        var (bars, rain) = (new StringBuilder(), new StringBuilder());
        var (before, width) = (-1m, Number(Math.Max(1, X(1) - X(0) - 0.5)));
        foreach (var (index, day) in ground.Days.Index())
        {
            if (day.Watering > 0) bars.Append($"M{Number(X(index))} {Number(bottom)}V{Number(Y(day.Watering))}h{width}V{Number(bottom)}z");
            if (day.Rain == before) continue;
            rain.Append($"{(index == 0 ? "M" : "H")}{Number(X(index))}{(index == 0 ? " " : "V")}{Number(Y(day.Rain))}");
            before = day.Rain;
        }

        _svg.Append(Path("w", bars.ToString())).Append(Path("rain", $"{rain}H{Number(_right)}"))
            .Append(Path("rule", $"M{Number(_left)} {Number(bottom)}H{Number(_right)}"));
    }

    private void DrawStore(GroundYear ground, double top)
    {
        var (total, bottom) = (ground.Roots.Total, top + StoreHeight);
        double Y(decimal missing) => top + ((double)(missing / total) * StoreHeight);
        var curve = new StringBuilder();
        foreach (var (index, day) in ground.Days.Index())
        {
            // On a day of watering the curve goes up first; of the others what they come to is enough.
            if (index == 0 || day.Watering > 0) curve.Append($"{(index == 0 ? "" : "L")}{Number(X(index))} {Number(Y(day.Missing))}");
            curve.Append($"L{Number(X(index + 0.9))} {Number(Y(day.End.Depletion))}");
        }

        var limit = Y(ground.Roots.Readily);
        var dry = string.Concat(ground.Days.Index().Where(day => day.Item.End.IsStressed).Select(day =>
            $"M{Number(X(day.Index))} {Number(limit)}V{Number(Math.Max(limit + 1, Y(day.Item.End.Depletion)))}H{Number(X(day.Index + 1))}V{Number(limit)}z"));
        _svg.Append(Path("wash", $"M{Number(_left)} {Number(bottom)}L{curve}V{Number(bottom)}z")).Append(Path("over", dry))
            .Append(Path("wl", $"M{curve}")).Append(Path("limit", $"M{Number(_left)} {Number(limit)}H{Number(_right)}"))
            .Append(Path("rule", $"M{Number(_left)} {Number(bottom)}H{Number(_right)}"));
        _svg.Append(_line.Spells(ground.DrySpells(), days => string.Create(CultureInfo.InvariantCulture, $"{days} days too dry"), spell => Math.Min(
            Enumerable.Range(spell.From, spell.Until - spell.From).Max(day => Y(ground.Days[day].End.Depletion)) + 14, bottom - 4)));
    }

    private void DrawThrough(GroundYear ground, double top)
    {
        var most = Math.Max(1, ground.Days.Max(day => day.End.Percolation));
        var bars = new StringBuilder();
        foreach (var (index, day) in ground.Days.Index().Where(day => day.Item.End.Percolation > 0))
        {
            var height = Number(Math.Max(1, (double)(day.End.Percolation / most) * OutHeight));
            bars.Append($"M{Number(X(index))} {Number(top)}v{height}h{Number(Math.Max(1, X(1) - X(0) - 0.5))}v-{height}z");
        }

        _svg.Append(Path("through", bars.ToString()));
    }

    private void WriteBeside(GroundYear ground, double y, double store, double through)
    {
        var limit = store + ((double)ground.Roots.AllowedShare * StoreHeight);
        _svg.Append(Words(_left - 10, store + 8, "full", "s e"));
        if (limit - store is > 14 and < StoreHeight - 14) _svg.Append(Words(_left - 10, limit + 4, "may fall to", "s e"));
        _svg.Append(Words(_left - 10, through - 1, "plants wilt", "s e")).Append(Words(_left - 10, through + 17, "below the roots", "s e"));
        if (_sizes.Right == 0) return;
        var x = _right + 8;
        _svg.Append(Words(x, y + 10, $"water {Sum(ground, day => day.Watering)}", "")).Append(Words(x, y + 25, $"rain {Sum(ground, day => day.Rain)}", ""));
        _svg.Append(Words(x, store + 8, _figures.Depth(ground.Roots.Total), "s"));
        if (limit - store is > 14 and < StoreHeight - 32) _svg.Append(Words(x, limit + 4, _figures.Depth(ground.Roots.Total - ground.Roots.Readily), "s"));
        _svg.Append(Words(x, through - 15, Dry(ground), "")).Append(Words(x, through - 1, _figures.Depth(0), "s"));
        _svg.Append(Words(x, through + 17, $"through {Sum(ground, day => day.End.Percolation)}", ""));
    }

    private double WriteBelow(GroundYear ground, double y)
    {
        _svg.Append(Words(0, y, $"water {Sum(ground, day => day.Watering)}, rain {Sum(ground, day => day.Rain)}", "s"))
            .Append(Words(0, y + 16, $"{Dry(ground)}, through {Sum(ground, day => day.End.Percolation)}", "s"));
        return y + 16;
    }

    private static string Dry(GroundYear ground) => $"too dry {Phrases.Count(ground.Days.Count(day => day.End.IsStressed), "day")}";

    private string Sum(GroundYear ground, Func<Simulation.Water.GroundDay, decimal> of) => _figures.Depth(Math.Round(ground.Days.Sum(of)));
}
