using System.Text;
using WaterScript.Quantities;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Formatting;

/// <summary>The blanks between the words of a line.</summary>
internal static class Spacing
{
    /// <summary>Words on one line: one blank between two, none before a comma and none after the sign of a number.</summary>
    public static string Join(ReadOnlySpan<Piece> words)
    {
        var text = new StringBuilder();
        for (var i = 0; i < words.Length; i++)
        {
            if (i > 0 && words[i].Type != WaterScriptLexer.COMMA && !IsSign(words, i - 1)) text.Append(' ');
            text.Append(words[i].Text);
        }

        return text.ToString();
    }

    /// <summary>Whether a minus belongs to the number after it, as in <c>-3 C</c>: it is an offset only before a time.</summary>
    private static bool IsSign(ReadOnlySpan<Piece> words, int index) =>
        words[index].Type == WaterScriptLexer.MINUS
        && index + 2 < words.Length
        && words[index + 1].Type == WaterScriptLexer.NUMBER
        && Units.Find(words[index + 2].Text) is { Dimension: not Dimension.Time };
}
