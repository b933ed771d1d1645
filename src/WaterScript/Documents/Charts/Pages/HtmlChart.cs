using System.Globalization;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>
/// Writes a chart as a page that needs nothing but itself. What it shows first is drawn here; its script draws the same at the reader's width.
/// </summary>
internal static class HtmlChart
{
    /// <summary>A page of 1100 px less its margins.</summary>
    private const double FirstWidth = 1044;

    private static readonly string[] Columns = ["from", "to", "zone", "schedule", "step", "length", "water", "line"];

    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(Chart chart, Stream stream) => Write(chart, new ChartOptions(), stream);

    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(Chart chart, ChartOptions options, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(stream);
        var links = new PictureLinks(chart.Site, options);
        links.AddAll();
        var picture = PictureBuilder.Of(chart, links);
        var markup = new MarkupWriter();
        markup.Raw("<!DOCTYPE html>\n").Open("html", ("lang", "en"));
        PageParts.WriteHead(markup, ChartWords.Title(chart), PageStyle.Text, PageParts.NightScript);
        markup.Open("body").Open("main");
        markup.Element("h1", ChartWords.Title(chart));
        markup.Open("p", ("class", "lead")).Element("b", ChartWords.Dates(chart)).Text(ChartWords.Rest(chart)).Close();
        WriteTools(markup, picture);
        WriteNights(markup, chart, picture);
        if (ChartWords.Unwatered(chart) is { Length: > 0 } words) markup.Element("p", words, ("class", "dry"));
        WriteAlike(markup, picture);
        WriteFindings(markup, picture);
        foreach (var night in picture.Nights) WriteTable(markup, picture, night);
        SourceView.Write(markup, links);
        markup.Close();
        PageParts.WriteFoot(markup, "Point at a bar, or step from run to run with the arrow keys; Ctrl and the wheel zoom.");
        markup.Open("script", ("type", "application/json"), ("id", "data")).Raw(PageData.Of(picture)).Close();
        markup.Open("script").Raw(PageParts.NightScript).Close();
        markup.Close().Close();
        markup.WriteTo(stream);
    }

    private static void WriteTools(MarkupWriter markup, Picture picture)
    {
        var whole = picture.IsOneNight ? "whole night" : "all nights";
        markup.Open("div", ("class", "tools"), ("role", "toolbar"), ("aria-label", "Move and zoom"));
        Tool(markup, "earlier", "← run", "earlier run");
        Tool(markup, "later", "run →", "later run");
        Tool(markup, "in", "+", "zoom in");
        Tool(markup, "out", "−", "zoom out");
        Tool(markup, "all", whole, whole);
        if (HasMorePanels(picture))
            markup.Element("button", "flow and power", ("type", "button"), ("data-do", "panels"), ("aria-pressed", "false"));
        Tool(markup, "beside", "file beside", "file beside the picture");
        markup.Close();
    }

    /// <summary>Whether there are devices or curves that are drawn only when they are asked for.</summary>
    private static bool HasMorePanels(Picture picture) => !picture.IsOneNight
        && picture.Nights.Any(night => !night.IsDry && (!night.Devices.IsEmpty || night.Panels.Any(panel => panel.Beyond.IsEmpty)));

    private static void Tool(MarkupWriter markup, string id, string words, string name) =>
        markup.Element("button", words, ("type", "button"), ("data-do", id), ("aria-label", name));

    private static void WriteNights(MarkupWriter markup, Chart chart, Picture picture)
    {
        markup.Raw($"<svg class=\"patterns sheet\" aria-hidden=\"true\">{PictureStyle.Patterns}</svg>\n");
        markup.Open("div", ("id", "picture"), ("class", "picture"), ("tabindex", "0"), ("role", "application"),
            ("aria-label", "Watering by night. Arrow keys go from run to run, brackets from night to night, plus and minus zoom, Enter goes to the line."));
        var drawing = new System.Text.StringBuilder();
        var isAlone = picture.IsOneNight;
        foreach (var drawn in NightPages.Draw(picture, new PictureSizes(FirstWidth)))
        {
            var words = ChartWords.NightWords(chart, drawn.Night.Id);
            if (drawn.Svg.Length == 0)
            {
                markup.Open("p", ("class", "dry")).Element("b", drawn.Night.Title).Text($" {words}").Close();
                continue;
            }

            if (!isAlone) markup.Open("h2").Text(drawn.Night.Title).Element("small", words).Close();
            else if (!drawn.Night.Held.IsEmpty) markup.Element("p", words, ("class", "dry"));
            markup.Open("div", ("class", "night"), ("data-night", drawn.Night.Id.ToString(CultureInfo.InvariantCulture))).Raw(drawn.Svg).Close();
            drawing.Append(drawn.Svg);
        }

        markup.Close();
        Legend.WriteAll(markup, drawing.ToString());
    }

    /// <summary>Which zones share a lane.</summary>
    private static void WriteAlike(MarkupWriter markup, Picture picture)
    {
        foreach (var (name, members) in picture.Zones.Zip(picture.Members).Where(lane => lane.First != lane.Second))
            markup.Open("p", ("class", "dry")).Element("b", name).Text($": {members}.").Close();
    }

    private static void WriteFindings(MarkupWriter markup, Picture picture)
    {
        if (picture.Findings.IsEmpty) return;
        markup.Element("h2", picture.Nights.Length == 1 ? "Findings of this night" : "Findings of these nights").Open("ol", ("class", "findings"));
        foreach (var (index, finding) in picture.Findings.Index())
        {
            var place = picture.Places[finding.Place];
            var sign = NightDrawing.Sign(FindingWords.Kind(finding), 12, 14, index + 1);
            markup.Open("li").Raw($"<svg class=\"sheet\" width=\"24\" height=\"26\" aria-hidden=\"true\">{sign}</svg>").Open("span")
                .Text($"{FindingWords.Kind(finding)} {(index + 1).ToString(CultureInfo.InvariantCulture)}: {finding.Words}. {finding.When} ")
                .Element("a", string.Create(CultureInfo.InvariantCulture, $"line {place.Line}"), ("class", "line"), ("href", place.Href)).Close().Close();
        }

        markup.Close();
    }

    private static void WriteTable(MarkupWriter markup, Picture picture, Night night)
    {
        if (night.IsDry) return;
        markup.Open("details").Element("summary", $"As a table: {night.Title}").Open("div", ("class", "wide"), ("tabindex", "0"), ("role", "group"),
            ("aria-label", $"Table, {night.Title}"));
        markup.Open("table").Open("thead").Open("tr");
        foreach (var column in Columns) markup.Element("th", column, ("scope", "col"));
        markup.Close().Close().Open("tbody");
        var rows = night.Rows.Select((row, index) => (row, index, isHeld: false)).Concat(night.Held.Select((row, index) => (row, index, isHeld: true)));
        foreach (var (row, index, isHeld) in rows.OrderBy(each => each.row.Start)) WriteRow(markup, picture, night, row, index, isHeld);
        markup.Close().Close().Close().Close();
    }

    private static void WriteRow(MarkupWriter markup, Picture picture, Night night, NightRow row, int index, bool isHeld)
    {
        var place = picture.Places[row.Place];
        var id = string.Create(CultureInfo.InvariantCulture, $"row-{night.Id}-{(isHeld ? "h" : "")}{index}");
        var length = row.IsComb
            ? string.Create(CultureInfo.InvariantCulture, $"every {Phrases.Length(row.Every)} for {Phrases.Length(row.Length)}, {row.Times} times")
            : Phrases.Length(row.Length);
        markup.Open("tr", ("id", id));
        foreach (var cell in new[]
        {
            night.Clock(row.Start, withSeconds: false), night.Clock(row.End, withSeconds: false), picture.Members[row.Zone], picture.Schedules[row.Schedule],
            row.Step, length, isHeld ? $"none, {row.Water}" : row.Water,
        }) markup.Element("td", cell);
        markup.Open("td").Element("a", place.Line.ToString(CultureInfo.InvariantCulture), ("class", "line"), ("href", place.Href)).Close().Close();
    }
}
