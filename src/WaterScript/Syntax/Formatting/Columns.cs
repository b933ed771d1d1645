using WaterScript.Text;

namespace WaterScript.Syntax.Formatting;

/// <summary>Text in columns.</summary>
internal static class Columns
{
    /// <summary>Columns that a text takes.</summary>
    public static int WidthOf(string text) => DisplayWidth.Of(text);

    /// <summary>A text with blanks after it up to a width.</summary>
    public static string Pad(string text, int width) => text + new string(' ', Math.Max(0, width - WidthOf(text)));
}
