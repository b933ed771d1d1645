using System.Globalization;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>Writes a chart as one SVG document (SVG 1.1 but for its style sheet), with its days under one another.</summary>
internal static class SvgChart
{
    private const double Margin = 16;
    private const double TitleHeight = 52;
    private const double HeadingHeight = 20;
    private const double DayGap = 18;
    private const double LineHeight = 20;
    private const double EntryGap = 26;

    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(Chart chart, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(stream);
        var nameWidth = DayDrawing.NameWidthOf(chart);
        var days = chart.Days.Select(day => new DayDrawing(day, nameWidth)).ToList();
        var width = days.Max(day => day.Width);
        var legend = LegendOf(chart, width).ToList();
        // A site without water has nothing to explain.
        var legendHeight = legend is [.., var last] ? last.Y + LineHeight : 0;
        var height = TitleHeight + days.Sum(day => HeadingHeight + day.Height + DayGap) + legendHeight + (chart.Findings.Length * LineHeight);
        var markup = new MarkupWriter();
        Begin(markup, chart, width + (2 * Margin), height + (2 * Margin));
        var y = TitleHeight;
        foreach (var day in days) y = WriteDay(markup, day, y);
        WriteLegend(markup, legend, y);
        y += legendHeight;
        foreach (var finding in chart.Findings) y = WriteFinding(markup, finding, y, width);
        markup.Close();
        markup.Close();
        markup.WriteTo(stream);
    }

    private static void Begin(MarkupWriter markup, Chart chart, double width, double height)
    {
        var (w, h) = (MarkupWriter.Number(width), MarkupWriter.Number(height));
        markup.Open("svg", ("xmlns", "http://www.w3.org/2000/svg"), ("class", "sheet"), ("viewBox", $"0 0 {w} {h}"), ("width", w), ("height", h),
            ("lang", "en"));
        markup.Element("title", ChartWords.Title(chart));
        markup.Element("desc", ChartWords.Summary(chart));
        markup.Open("style").Raw(ChartStyle.Drawing).Close();
        ChartLegend.WritePatterns(markup);
        markup.Empty("rect", ("class", "paper"), ("width", w), ("height", h));
        markup.Open("g", ("transform", $"translate({MarkupWriter.Number(Margin)} {MarkupWriter.Number(Margin)})"));
        Text(markup, 0, 16, ChartWords.Title(chart), "title");
        Text(markup, 0, 34, ChartWords.Summary(chart), "note");
    }

    private static double WriteDay(MarkupWriter markup, DayDrawing day, double y)
    {
        Text(markup, 0, y + 11, $"{ChartWords.Heading(day.Day)}. {ChartWords.Amounts(day.Day.Runs)}", "day-title");
        markup.Open("g", ("class", "day"), ("transform", $"translate(0 {MarkupWriter.Number(y + HeadingHeight)})"));
        foreach (var strip in day.Strips) new DaySvg(markup, day, strip).Write();
        markup.Close();
        return y + HeadingHeight + day.Height + DayGap;
    }

    /// <summary>The entries of the legend, set in lines.</summary>
    private static IEnumerable<(double X, double Y, Action<MarkupWriter> Draw, string Words)> LegendOf(Chart chart, double width)
    {
        var (x, y) = (0.0, 0.0);
        foreach (var (draw, words) in ChartLegend.Of(chart))
        {
            var room = ChartLegend.Width + 6 + DrawnText.WidthOf(words);
            if (x > 0 && x + room > width) (x, y) = (0, y + LineHeight);
            yield return (x, y, draw, TextWidth.Fit(DisplayLine.Clean(words), DrawnText.Size, width - ChartLegend.Width));
            x += room + EntryGap;
        }
    }

    private static void WriteLegend(MarkupWriter markup, List<(double X, double Y, Action<MarkupWriter> Draw, string Words)> legend, double y)
    {
        foreach (var entry in legend)
        {
            markup.Open("g", ("transform", $"translate({MarkupWriter.Number(entry.X)} {MarkupWriter.Number(y + entry.Y)})"));
            entry.Draw(markup);
            markup.Close();
            Text(markup, entry.X + ChartLegend.Width + 6, y + entry.Y + 12, entry.Words, "legend");
        }
    }

    private static double WriteFinding(MarkupWriter markup, ChartFinding finding, double y, double width)
    {
        DaySvg.WriteSign(markup, finding.Finding.Severity, ChartLegend.Width / 2, y + 9);
        var words = string.Create(CultureInfo.InvariantCulture,
            $"{finding.Number} {FindingSummary.WordOf(finding.Finding.Severity)}: {finding.Finding.Heading}. {ChartWords.Of(finding)}");
        Text(markup, ChartLegend.Width + 6, y + 12, TextWidth.Fit(DisplayLine.Clean(words), DrawnText.Size, width - ChartLegend.Width), "mark-text");
        return y + LineHeight;
    }

    private static void Text(MarkupWriter markup, double x, double y, string text, string style) =>
        markup.Element("text", text, ("class", style), ("x", MarkupWriter.Number(x)), ("y", MarkupWriter.Number(y)));
}
