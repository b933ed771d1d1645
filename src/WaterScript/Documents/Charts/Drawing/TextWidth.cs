using System.Text;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// How wide a text may be in the typefaces that a chart asks for. The widths are those of a wide face (Bitstream Vera and what comes from it, in
/// thousandths of the size, from memory), so that texts which do not overlap by these do not in a narrower one.
/// </summary>
internal static class TextWidth
{
    private const double Narrow = 0.34;
    private const double Digit = 0.637;
    private const double Small = 0.635;
    private const double Capital = 0.78;
    private const double Widest = 1.0;
    private const char Ellipsis = '…';

    /// <summary>The width of a text.</summary>
    public static double Of(string text, double size) => text.EnumerateRunes().Sum(Of) * size;

    /// <summary>A text, cut off with an ellipsis where it is wider than there is room.</summary>
    public static string Fit(string text, double size, double room)
    {
        if (Of(text, size) <= room) return text;
        var kept = new StringBuilder();
        var width = Widest * size;
        foreach (var rune in text.EnumerateRunes())
        {
            width += Of(rune) * size;
            if (width > room) break;
            kept.Append(rune);
        }

        return kept.ToString().TrimEnd() + Ellipsis;
    }

    /// <summary>A name, cut off before its last word where that is short: of many alike it is the number that distinguishes them.</summary>
    public static string FitName(string name, double size, double room)
    {
        var last = name[(name.LastIndexOf(' ') + 1)..];
        return Of(name, size) <= room || Of(last, size) > room / 3 ? Fit(name, size, room) : $"{Fit(name, size, room - Of(" " + last, size))} {last}";
    }

    private static double Of(Rune rune) => rune.Value switch
    {
        ' ' or ',' or '.' or ':' or ';' or '\'' or '|' or '!' or 'i' or 'j' or 'l' => Narrow,
        >= '0' and <= '9' => Digit,
        'm' or 'w' or 'M' or 'W' or '%' or '@' => Widest,
        >= 'a' and <= 'z' => Small,
        >= 'A' and <= 'Z' => Capital,
        '–' or '-' or '/' or '(' or ')' => Digit,
        >= 0x00C0 and < 0x0250 => Capital,
        _ => Widest,
    };
}
