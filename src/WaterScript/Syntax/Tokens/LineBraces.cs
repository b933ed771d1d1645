using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>
/// Looks at lines that hold a whole block, <c>zone lawn { output 1 }</c>. One that begins with the word of a block and closes more than it opens lacks its
/// opening brace, which is set behind the head of the block.
/// </summary>
internal sealed class LineBraces(List<IToken> tokens, SourceText source, Mistakes mistakes)
{
    private readonly List<IToken> _balanced = new(tokens.Count + 1);

    /// <summary>The tokens with those braces.</summary>
    public List<IToken> Balanced()
    {
        for (var first = 0; first < tokens.Count;)
        {
            var end = first + 1;
            var line = LineOf(tokens[first]);
            while (end < tokens.Count && tokens[end].Type != TokenConstants.EOF && LineOf(tokens[end]) == line) end++;
            AddLine(first, end);
            first = end;
        }

        return _balanced;
    }

    private void AddLine(int first, int end)
    {
        var head = IsUnopened(first, end) ? EndOfHead(first, end) : 0;
        for (var i = first; i < end; i++)
        {
            if (head > first && i == head)
            {
                var place = new TextSpan(tokens[i - 1].StopIndex + 1, 0);
                mistakes.MissingOpenInLine(place);
                _balanced.Add(TokenSpans.Make(WaterScriptLexer.LBRACE, place, "{"));
            }

            _balanced.Add(tokens[i]);
        }
    }

    /// <summary>Whether a line closes one block more than it opens, and not with its first token.</summary>
    private bool IsUnopened(int first, int end)
    {
        var (depth, least) = (0, 0);
        for (var i = first; i < end; i++)
        {
            if (tokens[i].Type == WaterScriptLexer.LBRACE) depth++;
            if (tokens[i].Type == WaterScriptLexer.RBRACE) least = Math.Min(least, --depth);
        }

        return depth == -1 && least == -1 && tokens[first].Type != WaterScriptLexer.RBRACE;
    }

    /// <summary>Where the head of the block that a line begins with ends; the first token where it begins with none.</summary>
    private int EndOfHead(int first, int end)
    {
        var words = tokens[first].Text switch
        {
            "steps" or "power" or "climate" => 1,
            "valve" => 3,
            "repeat" => first + 2 < end && tokens[first + 2].Type is WaterScriptLexer.TIMES or WaterScriptLexer.TIME ? 3 : 0,
            "let" or "group" or "days" => 0,
            var word => Words.IsNamed(word) ? 2 : 0,
        };
        if (words == 0 || first + words + 1 >= end || tokens[first + words].Type is WaterScriptLexer.LBRACE or WaterScriptLexer.NEWLINE) return first;
        return tokens[first + words].Type == WaterScriptLexer.STRING ? first + words + 1 : first + words;
    }

    private int LineOf(IToken token) => source.PositionOf(Math.Min(token.StartIndex, source.Text.Length)).Line;
}
