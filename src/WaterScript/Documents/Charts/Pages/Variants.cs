using System.Globalization;
using System.Text;
using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>A drawing at some widths, of which the style of a page shows the one that fits: for what is not zoomed, and so needs no script.</summary>
internal static class Variants
{
    private static readonly (int Width, string Range)[] Widths =
    [
        (1504, "(min-width: 1560px)"),
        (1304, "(min-width: 1360px) and (max-width: 1559.9px)"),
        (1044, "(min-width: 1100px) and (max-width: 1359.9px)"),
        (720, "(min-width: 776px) and (max-width: 1099.9px)"),
        (336, "(max-width: 775.9px)"),
    ];

    /// <summary>The style that shows one of them; on paper that of 1044 px.</summary>
    public static string Style { get; } = StyleOf();

    /// <summary>Writes them.</summary>
    public static void Write(MarkupWriter markup, Func<PictureSizes, string> draw)
    {
        foreach (var (width, _) in Widths)
            markup.Open("div", ("class", string.Create(CultureInfo.InvariantCulture, $"drawing at-{width}"))).Raw(draw(new PictureSizes(width))).Close();
    }

    private static string StyleOf()
    {
        var style = new StringBuilder();
        foreach (var (width, range) in Widths)
        {
            style.Append(CultureInfo.InvariantCulture, $"@media screen {{ .at-{width} {{ display: none; }} }}\n");
            style.Append(CultureInfo.InvariantCulture, $"@media screen and {range} {{ .at-{width} {{ display: block; }} }}\n");
        }

        return style.Append("@media print { .drawing { display: none; } .at-1044 { display: block; } }\n").ToString();
    }
}
