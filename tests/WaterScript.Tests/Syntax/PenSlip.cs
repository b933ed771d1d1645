using Antlr4.Runtime;
using WaterScript.Syntax.Generated;

namespace WaterScript.Tests.Syntax;

/// <summary>A text with one slip.</summary>
/// <param name="Kind">What was done.</param>
/// <param name="Text">The text.</param>
/// <param name="Written">The line as it stands there.</param>
/// <param name="Lines">The lines at which it may be reported.</param>
internal sealed record PenSlip(string Kind, string Text, string Written, int[] Lines)
{
    private static readonly string[] Units = ["min", "m", "mm", "m2", "mm2", "mA", "h", "ha", "L", "L/min", "L/h", "s", "ms", "V", "W", "uF", "A", "acre"];

    /// <summary>
    /// Whether it is in a name where that is given: it is reported where the name is used, in each place, because either of the two spellings may be meant.
    /// </summary>
    public bool IsInGivenName { get; private init; }

    /// <summary>A slip in a text; null where what was drawn has no place for one.</summary>
    public static PenSlip? In(string text, IReadOnlyList<IToken> tokens, Random random)
    {
        var index = random.Next(tokens.Count - 1);
        var isGiven = index > 0 && WaterScript.Syntax.Words.IsNamed(tokens[index - 1].Text) && text[tokens[index - 1].StartIndex - 1] == '\n';
        var slip = Drawn(text, tokens, index, random);
        return slip is null ? null : slip with { IsInGivenName = isGiven && slip.Kind.Contains("letter", StringComparison.Ordinal) };
    }

    private static PenSlip? Drawn(string text, IReadOnlyList<IToken> tokens, int index, Random random)
    {
        return random.Next(10) switch
        {
            0 => Letters(text, tokens[index], random, "a letter dropped", (word, at, _) => word.Remove(at, 1)),
            1 => Letters(text, tokens[index], random, "a letter doubled", (word, at, _) => word.Insert(at, word[at..(at + 1)])),
            2 => Letters(text, tokens[index], random, "two letters swapped", (word, at, _) => at + 1 < word.Length ? Swapped(word, at) : word),
            3 => Letters(text, tokens[index], random, "a letter replaced", (word, at, other) => word.Remove(at, 1).Insert(at, other.ToString())),
            4 => Dropped(text, tokens, index, "a mark dropped", IsMark(tokens[index].Type)),
            5 => Dropped(text, tokens, index, "a word dropped", WaterScript.Syntax.Words.IsWord(tokens[index].Type)),
            6 => Joined(text, tokens, index),
            7 => Letters(text, tokens[index], random, "a capital", (word, _, _) => char.ToUpperInvariant(word[0]) + word[1..]),
            8 => Replaced(text, tokens[index], "a comma for the point", tokens[index].Text.Replace('.', ','), tokens[index].Type == WaterScriptLexer.NUMBER),
            _ => Replaced(text, tokens[index], "another unit", OtherUnit(tokens[index].Text, random), true),
        };
    }

    /// <inheritdoc/>
    public override string ToString() => $"{Kind} in `{Written.Trim()}`";

    private static PenSlip? Letters(string text, IToken token, Random random, string kind, Func<string, int, char, string> change)
    {
        if (!WaterScript.Syntax.Words.IsWord(token.Type) || token.Text.Length < 2) return null;
        return Replaced(text, token, kind, change(token.Text, random.Next(token.Text.Length), (char)('a' + random.Next(26))), true);
    }

    private static string Swapped(string word, int at) => $"{word[..at]}{word[at + 1]}{word[at]}{word[(at + 2)..]}";

    private static PenSlip? Dropped(string text, IReadOnlyList<IToken> tokens, int index, string kind, bool isOne)
    {
        if (!isOne) return null;
        var slip = Replaced(text, tokens[index], kind, "", true);
        return slip is null ? null : slip with { Lines = [.. slip.Lines, .. BlockLines(text, tokens, index)] };
    }

    private static PenSlip? Joined(string text, IReadOnlyList<IToken> tokens, int index)
    {
        var (first, second) = (tokens[index], tokens[index + 1]);
        var between = text[(first.StopIndex + 1)..second.StartIndex];
        if (between.Length == 0 || between.Any(c => c != ' ')) return null;
        return Of(text, "two words joined", first.StopIndex + 1, between.Length, "", first.StopIndex);
    }

    private static PenSlip? Replaced(string text, IToken token, string kind, string replacement, bool isOne) =>
        !isOne || replacement == token.Text ? null : Of(text, kind, token.StartIndex, token.Text.Length, replacement, token.StartIndex);

    private static PenSlip Of(string text, string kind, int start, int length, string replacement, int place)
    {
        var written = text.Remove(start, length).Insert(start, replacement);
        var line = LineOf(text, place);
        return new PenSlip(kind, written, written.Split('\n')[line - 1], [line]);
    }

    /// <summary>The lines at which a brace that is gone may be missed: that of the block which it began or ended, and of its last line.</summary>
    private static IEnumerable<int> BlockLines(string text, IReadOnlyList<IToken> tokens, int index)
    {
        if (tokens[index].Type == WaterScriptLexer.LBRACE)
        {
            if (index > 0) yield return LineOf(text, tokens[index - 1].StartIndex);
        }
        else if (tokens[index].Type == WaterScriptLexer.RBRACE)
        {
            var depth = 0;
            for (var i = index; i >= 0; i--)
            {
                if (tokens[i].Type == WaterScriptLexer.RBRACE) depth++;
                if (tokens[i].Type == WaterScriptLexer.LBRACE && --depth == 0) yield return LineOf(text, tokens[i].StartIndex);
            }
        }
    }

    private static int LineOf(string text, int place) => text.AsSpan(0, place).Count('\n') + 1;

    private static bool IsMark(int type) => type is WaterScriptLexer.COMMA or WaterScriptLexer.PLUS or WaterScriptLexer.EQUALS or WaterScriptLexer.PERCENT
        or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE or WaterScriptLexer.MINUS;

    private static string OtherUnit(string unit, Random random)
    {
        if (!Units.Contains(unit)) return unit;
        var others = Units.Where(other => other != unit && other[0] == unit[0]).ToArray();
        return others.Length == 0 ? unit : others[random.Next(others.Length)];
    }
}
