using System.Text;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Years;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>Writes a year as one SVG document.</summary>
internal static class SvgYear
{
    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(YearChart year, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(stream);
        var (sizes, words) = (new PictureSizes(SvgChart.InnerWidth), new YearWords(year));
        var (drawn, height) = YearDrawing.Draw(year, sizes);
        var title = Shapes.Plain(year.Site.DisplayName);
        var summary = words.Dates + words.Rest;
        var body = new StringBuilder();
        body.Append(Shapes.Words(0, 18, title, "title")).Append(Shapes.Words(0, 38, Letters.Cut(summary, sizes.Width), "s"));
        body.Append($"<g transform=\"translate(0 56)\">{drawn}</g>");
        var y = SvgChart.AddLegend(YearLegend.Of(year), sizes, body, 56 + height);
        stream.Write(Encoding.UTF8.GetBytes(SvgChart.Document(title, summary, body, y)));
    }
}
