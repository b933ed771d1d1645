using System.Globalization;
using WaterScript.Text;

namespace WaterScript.Syntax.Formatting;

/// <summary>Text in columns.</summary>
internal static class Columns
{
    /// <summary>Columns that a text takes.</summary>
    public static int WidthOf(ReadOnlySpan<char> text)
    {
        if (!text.ContainsAnyExceptInRange(' ', '~')) return text.Length;
        var width = 0;
        for (var rest = text; !rest.IsEmpty;)
        {
            var length = StringInfo.GetNextTextElementLength(rest);
            width += DisplayWidth.Of(rest[..length]);
            rest = rest[length..];
        }

        return width;
    }

    /// <summary>A text with blanks after it up to a width.</summary>
    public static string Pad(string text, int width) => text + new string(' ', Math.Max(0, width - WidthOf(text)));
}
