using System.Globalization;
using System.Text;
using WaterScript.Text;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// Shapes and texts as SVG. It is written by hand, not by a library, because the page's script writes the same and a test compares the two to the letter.
/// </summary>
internal static class Shapes
{
    /// <summary>A coordinate, to a tenth of a pixel: <c>12.5</c>.</summary>
    public static string Number(double value)
    {
        var rounded = Math.Floor((value * 10) + 0.5) / 10;
        return rounded == 0 ? "0" : rounded.ToString("R", CultureInfo.InvariantCulture);
    }

    /// <summary>A text that cannot end its element or attribute.</summary>
    public static string Escaped(string text) => Plain(text).AsSpan().IndexOfAny("&<>\"") < 0
        ? Plain(text)
        : new StringBuilder(Plain(text)).Replace("&", "&amp;").Replace("<", "&lt;").Replace(">", "&gt;").Replace("\"", "&quot;").ToString();

    /// <summary>A text on one line in which every character can be seen, without halves of characters and what XML does not allow (XML 1.0, 2.2).</summary>
    public static string Plain(string text)
    {
        var line = DisplayLine.CleanLine(text);
        if (line.AsSpan().IndexOfAnyInRange('\uD800', '\uFFFF') < 0) return line;
        var plain = new StringBuilder(line.Length);
        foreach (var rune in line.EnumerateRunes()) plain.Append(rune.Value is 0xFFFE or 0xFFFF ? "\uFFFD" : rune.ToString());
        return plain.ToString();
    }

    /// <summary>A text.</summary>
    /// <param name="x">Its left edge; its right one where its kind says so.</param>
    /// <param name="y">Its baseline.</param>
    /// <param name="words">The text.</param>
    /// <param name="kind">Classes of the style; may be empty.</param>
    public static string Words(double x, double y, string words, string kind) =>
        $"<text{(kind.Length > 0 ? $" class=\"{kind}\"" : "")} x=\"{Number(x)}\" y=\"{Number(y)}\">{Escaped(words)}</text>";

    /// <summary>A path; nothing for an empty one.</summary>
    public static string Path(string kind, string d) => d.Length == 0 ? "" : $"<path class=\"{kind}\" d=\"{d}\"/>";

    /// <summary>A rectangle.</summary>
    public static string Box(string kind, double x, double y, double width, double height) =>
        $"<rect class=\"{kind}\" x=\"{Number(x)}\" y=\"{Number(y)}\" width=\"{Number(width)}\" height=\"{Number(height)}\"/>";
}
