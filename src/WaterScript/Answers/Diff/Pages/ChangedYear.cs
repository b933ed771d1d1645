using System.Globalization;
using System.Text;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Years;
using WaterScript.Wording;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>Draws the difference of a year day by day around zero: more water up from the middle and solid, less down and outlined.</summary>
internal sealed class ChangedYear(YearChart old, YearChart @new, PictureSizes sizes)
{
    private const double WideRow = 27;
    private const double Top = 22;
    private static readonly string[] Weekdays = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    private readonly YearGrid _grid = new(@new, sizes);

    /// <summary>It as an element of SVG.</summary>
    public string Draw()
    {
        var (svg, more, less, zero) = (new StringBuilder(), new StringBuilder(), new StringBuilder(), new StringBuilder());
        var differences = Enumerable.Range(0, @new.Days).Select(day => @new.Litres(day, day + 1) - old.Litres(day, day + 1)).ToList();
        var most = Math.Max(1, differences.Max(Math.Abs));
        var width = _grid.Cell.Width;
        foreach (var (day, difference) in differences.Index())
        {
            var (x, middle) = (_grid.Of(day).X + 1, MiddleOf(day));
            zero.Append($"M{Number(x)} {Number(middle)}h{Number(width)}");
            if (difference == 0) continue;
            var height = Number(Math.Max(1.5, (double)(Math.Abs(difference) / most) * ((Row / 2) - 2)));
            if (difference > 0) more.Append($"M{Number(x)} {Number(middle)}v-{height}h{Number(width)}v{height}z");
            else less.Append($"M{Number(x)} {Number(middle)}v{height}h{Number(width)}v-{height}z");
        }

        svg.Append(Path("hair", zero.ToString())).Append(Path("w", more.ToString())).Append(Path("was fewer", less.ToString()))
            .Append(Path("rule", MonthBorders()));
        DrawNames(svg);
        var bottom = Top + ((sizes.IsWide ? 7 : _grid.Weeks) * Row) + 4;
        var place = string.Create(CultureInfo.InvariantCulture,
            $"{Number(_grid.Left)} {Number(Top)} {Number(_grid.Pitch)} {Number(Row)} {_grid.First} {(sizes.IsWide ? 1 : 0)}");
        return $"<svg class=\"sheet\" width=\"{Number(sizes.Width)}\" height=\"{Number(bottom)}\" viewBox=\"0 0 {Number(sizes.Width)} {Number(bottom)}\" " +
            $"role=\"img\" data-grid=\"{place}\" aria-label=\"{Escaped(ChangeWords.Year(old, @new))}\">{svg}</svg>";
    }

    /// <summary>A stepped line where a month begins.</summary>
    private string MonthBorders() => _grid.Borders(@new, Top, Row);

    private double Row => sizes.IsWide ? WideRow : _grid.Row;

    private double MiddleOf(int day) => Top + (_grid.Of(day).Y / _grid.Row * Row) + (Row / 2);

    private void DrawNames(StringBuilder svg)
    {
        var used = -1e9;
        foreach (var (month, from, _) in @new.Months())
        {
            var words = Phrases.Month(month.Month)[..3] + (from == 0 || month.Month == 1
                ? string.Create(CultureInfo.InvariantCulture, $" {@new.DateOf(from).Year}")
                : "");
            var at = sizes.IsWide ? _grid.Along(from) : MiddleOf(from);
            if (at < used || (sizes.IsWide && at + (Letters.Width(words) * 1.1) > sizes.Width)) continue;
            svg.Append(sizes.IsWide ? Shapes.Words(at, 12, words, "b") : Shapes.Words(0, at + 4, words, "b"));
            used = at + (sizes.IsWide ? (Letters.Width(words) * 1.1) + 6 : 14);
        }

        if (!sizes.IsWide) return;
        foreach (var (index, weekday) in Weekdays.Index()) svg.Append(Shapes.Words(_grid.Left - 10, Top + (index * Row) + (Row / 2) + 4, weekday, "s e"));
    }
}
