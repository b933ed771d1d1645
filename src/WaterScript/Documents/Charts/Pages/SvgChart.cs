using System.Text;
using WaterScript.Documents.Charts.Drawing;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>Writes a chart as one SVG document, with its nights under one another.</summary>
internal static class SvgChart
{
    private const double Width = 1100;
    private const double Margin = 28;
    private const double LineHeight = 22;
    private const double EntryGap = 22;

    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(Chart chart, Stream stream) => Write(chart, new ChartOptions(), stream);

    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(Chart chart, ChartOptions options, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(stream);
        var picture = PictureBuilder.Of(chart, new PictureLinks(chart.Site, options));
        var sizes = new PictureSizes(InnerWidth);
        var body = new StringBuilder();
        var y = 44.0;
        body.Append(Words(0, 18, ChartWords.Title(chart), "title")).Append(Words(0, 38, Letters.Cut(ChartWords.Summary(chart), sizes.Width), "s"));
        y = AddNights(chart, picture, sizes, body, y);
        y = AddFindings(picture, sizes, body, y);
        y = AddLegend(Legend.Of(body.ToString()), sizes, body, y);
        stream.Write(Encoding.UTF8.GetBytes(Document(ChartWords.Title(chart), ChartWords.Summary(chart), body, y)));
    }

    /// <summary>The width that is drawn on.</summary>
    public static double InnerWidth => Width - (2 * Margin);

    /// <summary>A picture as a document.</summary>
    public static string Document(string title, string summary, StringBuilder body, double height)
    {
        var (width, tall) = (Number(Width), Number(Math.Ceiling(height + (2 * Margin))));
        return $"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"sheet\" viewBox=\"0 0 {width} {tall}\" width=\"{width}\" height=\"{tall}\" lang=\"en\">\n" +
            $"<title>{Escaped(title)}</title>\n<desc>{Escaped(summary)}</desc>\n" +
            $"<style>{PictureStyle.Text}</style>\n{PictureStyle.Patterns}\n<rect class=\"paper\" width=\"{width}\" height=\"{tall}\"/>\n" +
            $"<g transform=\"translate({Number(Margin)} {Number(Margin)})\">\n{body}</g>\n</svg>\n";
    }

    private static double AddNights(Chart chart, Picture picture, PictureSizes sizes, StringBuilder body, double y)
    {
        foreach (var drawn in NightPages.Draw(picture, sizes))
        {
            var heading = ChartWords.NightWords(chart, drawn.Night.Id);
            if (picture.Nights.Length > 1 || drawn.Svg.Length == 0)
            {
                y += 26;
                body.Append(Words(0, y, drawn.Night.Title, "heading"));
                body.Append(Words((Letters.Width(drawn.Night.Title) * 1.3) + 10, y, Letters.Cut(heading, sizes.Width * 0.7), "s"));
                y += 4;
            }
            else y += 12;

            if (drawn.Svg.Length == 0) continue;
            body.Append($"<g transform=\"translate(0 {Number(y)})\">{drawn.Svg}</g>\n");
            y += drawn.Height;
        }

        if (ChartWords.Unwatered(chart) is not { Length: > 0 } words) return y;
        body.Append(Words(0, y + 20, Letters.Cut(words, sizes.Width), "s"));
        return y + 24;
    }

    private static double AddFindings(Picture picture, PictureSizes sizes, StringBuilder body, double y)
    {
        if (picture.Findings.IsEmpty) return y;
        y += 12;
        foreach (var (index, finding) in picture.Findings.Index())
        {
            y += 24;
            body.Append(NightDrawing.Sign(FindingWords.Kind(finding), 12, y - 4, index + 1));
            body.Append(Words(32, y, Letters.Cut($"{finding.Words}. {finding.When}", sizes.Width - 40), ""));
        }

        return y + 4;
    }

    /// <summary>Adds the legend under a picture, and gives where it ends.</summary>
    public static double AddLegend(IEnumerable<(string Sample, string Words)> legend, PictureSizes sizes, StringBuilder body, double y)
    {
        var entries = legend.ToList();
        if (entries.Count == 0) return y;
        var x = 0.0;
        y += LineHeight;
        foreach (var (sample, words) in entries)
        {
            var width = Legend.Width + 8 + Letters.Width(words);
            if (x > 0 && x + width > sizes.Width) (x, y) = (0, y + LineHeight);
            body.Append($"<g transform=\"translate({Number(x)} {Number(y)})\">{sample}</g>").Append(Words(x + Legend.Width + 8, y + 11, words, "s"));
            x += width + EntryGap;
        }

        return y + LineHeight;
    }
}
