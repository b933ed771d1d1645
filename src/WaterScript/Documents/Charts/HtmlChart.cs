using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>Writes a chart as a page that needs nothing but itself: a drawing and a table for each day, and stepping by key and button.</summary>
internal static class HtmlChart
{
    private static readonly string[] Columns = ["from", "to", "zone", "schedule", "pass", "step", "length", "water"];

    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(Chart chart, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(stream);
        var markup = new MarkupWriter();
        markup.Raw("<!DOCTYPE html>\n").Open("html", ("lang", "en"));
        WriteHead(markup, chart);
        markup.Open("body").Open("main");
        markup.Element("h1", ChartWords.Title(chart));
        markup.Element("p", ChartWords.Summary(chart), ("class", "quiet"));
        WriteLegend(markup, chart);
        var nameWidth = DayDrawing.NameWidthOf(chart);
        foreach (var (index, day) in chart.Days.Index()) WriteDay(markup, new DayDrawing(day, nameWidth), index + 1, chart.Days.Length > 1);
        WriteFindings(markup, chart);
        markup.Close();
        WriteSteps(markup);
        markup.Open("script").Raw(ChartScript.Text).Close();
        markup.Close().Close();
        markup.WriteTo(stream);
    }

    private static void WriteHead(MarkupWriter markup, Chart chart)
    {
        var style = ChartStyle.Page + ChartStyle.Drawing;
        markup.Open("head");
        markup.Empty("meta", ("charset", "utf-8"));
        markup.Empty("meta", ("http-equiv", "Content-Security-Policy"),
            ("content", $"default-src 'none'; img-src data:; style-src '{HashOf(style)}'; script-src '{HashOf(ChartScript.Text)}'; base-uri 'none'; " +
            "form-action 'none'"));
        markup.Empty("meta", ("name", "viewport"), ("content", "width=device-width, initial-scale=1"));
        markup.Empty("meta", ("name", "referrer"), ("content", "no-referrer"));
        markup.Empty("link", ("rel", "icon"), ("href", "data:,"));
        markup.Element("title", ChartWords.Title(chart));
        markup.Open("style").Raw(style).Close();
        markup.Close();
    }

    /// <summary>The only style and script that the page lets run are its own (W3C Content Security Policy, level 2).</summary>
    private static string HashOf(string text) => $"sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text)))}";

    private static void WriteLegend(MarkupWriter markup, Chart chart)
    {
        markup.Open("svg", ("class", "patterns sheet"), ("aria-hidden", "true"));
        ChartLegend.WritePatterns(markup);
        markup.Close();
        markup.Open("ul", ("class", "legend"));
        foreach (var (draw, words) in ChartLegend.Of(chart))
        {
            markup.Open("li").Open("svg", ("class", "sheet"),
                ("viewBox", $"0 0 {MarkupWriter.Number(ChartLegend.Width)} {MarkupWriter.Number(ChartLegend.Height)}"),
                ("width", MarkupWriter.Number(ChartLegend.Width)), ("height", MarkupWriter.Number(ChartLegend.Height)), ("aria-hidden", "true"));
            draw(markup);
            markup.Close();
            markup.Element("span", words).Close();
        }

        markup.Close();
    }

    private static void WriteDay(MarkupWriter markup, DayDrawing drawing, int number, bool isOneOfMany)
    {
        var (day, id) = (drawing.Day, string.Create(CultureInfo.InvariantCulture, $"day-{number}"));
        markup.Open("section", ("class", "day"), ("aria-labelledby", id));
        markup.Element("h2", ChartWords.Heading(day), ("id", id));
        if (isOneOfMany) markup.Element("p", ChartWords.Amounts(day.Runs), ("class", "quiet"));
        markup.Open("div", ("class", "scroll"), ("tabindex", "0"), ("role", "group"), ("aria-label", $"Drawing, {ChartWords.Heading(day)}"));
        foreach (var strip in drawing.Strips) WriteStrip(markup, drawing, strip);
        markup.Close();
        WriteTable(markup, day);
        markup.Close();
    }

    private static void WriteStrip(MarkupWriter markup, DayDrawing drawing, DrawnStrip strip)
    {
        var box = $"0 {MarkupWriter.Number(strip.Top)} {MarkupWriter.Number(drawing.Width)} {MarkupWriter.Number(strip.Height)}";
        markup.Open("svg", ("class", "sheet"), ("viewBox", box));
        new DaySvg(markup, drawing, strip).Write();
        markup.Close();
    }

    private static void WriteTable(MarkupWriter markup, ChartDay day)
    {
        if (day.Runs.IsEmpty) return;
        markup.Open("details").Element("summary", "The same runs as a table");
        markup.Open("table").Element("caption", $"{ChartWords.Heading(day)}. {ChartWords.Amounts(day.Runs)}");
        markup.Open("thead").Open("tr");
        foreach (var column in Columns) markup.Element("th", column, ("scope", "col"), ("class", ClassOf(column)));
        markup.Close().Close().Open("tbody");
        foreach (var run in day.Runs) WriteRow(markup, run);
        markup.Close().Close().Close();
    }

    private static void WriteRow(MarkupWriter markup, ChartRun run)
    {
        markup.Open("tr", ("id", string.Create(CultureInfo.InvariantCulture, $"row-{run.Number}")));
        string[] cells = [$"{MomentWords.Date(run.From.Date)[..^5]} {run.Clock}", run.ClockOfEnd, run.Zone.DisplayName, run.Schedule.DisplayName, run.Pass,
            run.Step, run.Length, run.Water];
        foreach (var (column, cell) in Columns.Zip(cells)) markup.Element("td", cell, ("class", ClassOf(column)));
        markup.Close();
    }

    /// <summary>What a phone leaves out of the table; the text of the run still says it.</summary>
    private static string ClassOf(string column) => column is "pass" or "step" or "length" ? "wide" : "cell";

    private static void WriteFindings(MarkupWriter markup, Chart chart)
    {
        if (chart.Findings.IsEmpty) return;
        markup.Open("section", ("aria-labelledby", "findings")).Element("h2", "Findings on these days", ("id", "findings")).Open("ol", ("class", "findings"));
        foreach (var finding in chart.Findings)
        {
            markup.Open("li");
            markup.Element("b", string.Create(CultureInfo.InvariantCulture,
                $"{finding.Number} {FindingSummary.WordOf(finding.Finding.Severity)}: {finding.Finding.Heading}"));
            markup.Text($" {ChartWords.Of(finding)}").Close();
        }

        markup.Close().Close();
    }

    private static void WriteSteps(MarkupWriter markup)
    {
        markup.Open("nav", ("class", "steps"), ("aria-label", "Steps"));
        markup.Element("button", "earlier run", ("type", "button"), ("id", "earlier-run"), ("aria-keyshortcuts", "ArrowLeft"));
        markup.Element("button", "later run", ("type", "button"), ("id", "later-run"), ("aria-keyshortcuts", "ArrowRight"));
        markup.Element("button", "earlier day", ("type", "button"), ("id", "earlier-day"), ("aria-keyshortcuts", "["));
        markup.Element("button", "later day", ("type", "button"), ("id", "later-day"), ("aria-keyshortcuts", "]"));
        markup.Element("output", "Step with the arrow keys, from day to day with [ and ]; tap a bar for details.", ("aria-live", "polite"));
        markup.Close();
    }
}
