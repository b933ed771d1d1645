using Antlr4.Runtime;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Tokens;

/// <summary>
/// Takes out the line ends that end no statement: after a mark that lets it go on, and before a brace. A comma or a plus at the end of a line that the
/// next line does not go on from is a slip at that end.
/// </summary>
internal static class LineEnds
{
    /// <summary>Takes them out.</summary>
    /// <param name="tokens">All tokens of a file; afterwards those that are left.</param>
    public static void TakeOut(List<IToken> tokens)
    {
        var kept = 0;
        var places = new PlaceStack();
        for (var i = 0; i < tokens.Count; i++)
        {
            var token = tokens[i];
            if (IsLineEnd(token) && kept > 0 && IsIdle(tokens[kept - 1], tokens, i, places)) continue;
            while (token.Type == WaterScriptLexer.LBRACE && kept > 0 && IsLineEnd(tokens[kept - 1])) kept--;
            tokens[kept++] = token;
            places.Take(token);
        }

        tokens.RemoveRange(kept, tokens.Count - kept);
    }

    /// <summary>Whether a line ends after a token that lets the statement go on.</summary>
    private static bool IsIdle(IToken before, List<IToken> tokens, int index, PlaceStack places) => before.Type switch
    {
        WaterScriptLexer.EQUALS or WaterScriptLexer.LBRACE => true,
        WaterScriptLexer.COMMA or WaterScriptLexer.PLUS => !BeginsStatement(tokens, index, places),
        _ => false,
    };

    /// <summary>Whether the next line begins a statement of its own, so that no item of a list can stand at its start.</summary>
    private static bool BeginsStatement(List<IToken> tokens, int index, PlaceStack places)
    {
        var next = index;
        while (tokens[next].Type == WaterScriptLexer.NEWLINE && IsLineEnd(tokens[next])) next++;
        if (tokens[next].Type is WaterScriptLexer.RBRACE or TokenConstants.EOF) return true;
        if (!places.MayBegin(tokens[next].Text) || next + 1 >= tokens.Count) return false;
        var second = tokens[next + 1];

        // `days 1, 15 of month` goes on with a list; `days holidays = …` begins anew.
        if (tokens[next].Type == WaterScriptLexer.DAYS && second.Type == WaterScriptLexer.NUMBER) return false;
        return !IsOfList(second.Type) || (second.Type is WaterScriptLexer.WITH or WaterScriptLexer.FOR && places.IsAt(Place.Restriction));
    }

    /// <summary>Whether a token may stand behind a name in a list.</summary>
    private static bool IsOfList(int type) => type is WaterScriptLexer.COMMA or WaterScriptLexer.PLUS or WaterScriptLexer.FOR or WaterScriptLexer.WITH
        or WaterScriptLexer.NEWLINE or WaterScriptLexer.RBRACE or WaterScriptLexer.FROM or WaterScriptLexer.TO or TokenConstants.EOF or WaterScriptLexer.MINUS;

    private static bool IsLineEnd(IToken token) => token.Type == WaterScriptLexer.NEWLINE && token.Text != ";";
}
