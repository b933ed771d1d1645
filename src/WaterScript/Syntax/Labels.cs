using System.Globalization;
using System.Text;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Reads labels.</summary>
internal static class Labels
{
    /// <summary>What a label says: its quotes taken off and its escapes read. A wrong escape is reported and left out.</summary>
    /// <param name="text">With quotes.</param>
    /// <param name="start">Where it stands in the file.</param>
    /// <param name="mistakes">Takes the findings.</param>
    public static string Read(string text, int start, Mistakes mistakes)
    {
        if (!text.Contains('\\', StringComparison.Ordinal)) return text[1..^1];
        var value = new StringBuilder(text.Length);
        for (var i = 1; i < text.Length - 1;)
        {
            if (text[i] != '\\')
            {
                value.Append(text[i++]);
                continue;
            }

            var length = EscapeLength(text, i);
            if (Character(text.AsSpan(i, length)) is { } character) value.Append(character);
            else mistakes.BadEscape(new TextSpan(start + i, length));
            i += length;
        }

        return value.ToString();
    }

    private static int EscapeLength(string text, int start)
    {
        if (text[start + 1] != 'u' || start + 2 >= text.Length - 1 || text[start + 2] != '{') return 2;
        var close = text.IndexOf('}', start);
        return close < 0 ? 3 : close + 1 - start;
    }

    private static string? Character(ReadOnlySpan<char> escape) => escape switch
    {
        "\\\"" => "\"",
        "\\\\" => "\\",
        "\\n" => "\n",
        ['\\', 'u', '{', .. var digits, '}'] => FromCode(digits),
        _ => null,
    };

    private static string? FromCode(ReadOnlySpan<char> digits) =>
        digits.Length <= 6 && int.TryParse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var code) && Rune.IsValid(code)
            ? new Rune(code).ToString()
            : null;
}
