using System.Text;
using System.Xml.Linq;
using NodaTime.Text;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Tests.Timetables;
using ChartOfSite = WaterScript.Documents.Charts.Chart;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>Charts of sites written in a test.</summary>
internal static class Charts
{
    public static ChartOfSite Of(string text, string from, int days = 1) => Of(Sites.Read(text), new ChartSpan(LocalDatePattern.Iso.Parse(from).Value, days));

    public static ChartOfSite Of(Site site, ChartSpan span) =>
        ChartBuilder.Build(site, FindingMoments.Of(site, Linter.Check(site, CheckHorizon.Of(site)), span.Dates), span);

    public static XDocument Svg(ChartOfSite chart) => XDocument.Parse(TextOf(SvgChart.Write, chart));

    /// <summary>The page as XML: it is written so that it is both. Its scripts are left out.</summary>
    public static XDocument Html(ChartOfSite chart)
    {
        var text = TextOf(HtmlChart.Write, chart);
        for (var start = text.IndexOf("<script", StringComparison.Ordinal); start >= 0; start = text.IndexOf("<script", StringComparison.Ordinal))
        {
            var end = text.IndexOf("</script>", start, StringComparison.Ordinal) + "</script>".Length;
            text = text[..start] + text[end..];
        }

        return XDocument.Parse(text);
    }

    public static string TextOf(Action<ChartOfSite, Stream> write, ChartOfSite chart)
    {
        using var stream = new MemoryStream();
        write(chart, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>What is drawn of it.</summary>
    public static Picture PictureOf(ChartOfSite chart) => PictureBuilder.Of(chart, new PictureLinks(chart.Site, new ChartOptions()));

    /// <summary>Its nights as they are drawn at a width.</summary>
    public static List<DrawnNight> Drawn(Picture picture, double width) =>
        [.. NightPages.Draw(picture, new PictureSizes(width)).Where(night => night.Svg.Length > 0)];
}
