using System.Text;
using System.Xml.Linq;
using NodaTime.Text;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
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

    /// <summary>The page as XML: it is written so that it is both.</summary>
    public static XDocument Html(ChartOfSite chart)
    {
        var text = TextOf(HtmlChart.Write, chart);
        var (start, end) = (text.IndexOf("<script>", StringComparison.Ordinal), text.IndexOf("</script>", StringComparison.Ordinal));
        return XDocument.Parse(text[..start] + text[(end + "</script>".Length)..]);
    }

    public static string TextOf(Action<ChartOfSite, Stream> write, ChartOfSite chart)
    {
        using var stream = new MemoryStream();
        write(chart, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>The drawings of its days.</summary>
    public static IEnumerable<DayDrawing> Drawings(ChartOfSite chart) => chart.Days.Select(day => new DayDrawing(day, DayDrawing.NameWidthOf(chart)));
}
