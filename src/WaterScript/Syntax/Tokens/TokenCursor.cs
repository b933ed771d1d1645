using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>The tokens that are still to be gone over, and those that came out.</summary>
/// <param name="tokens">The tokens of the file, line ends and the end among them.</param>
/// <param name="source">The file.</param>
/// <param name="mistakes">Takes what is found.</param>
internal sealed class TokenCursor(List<IToken> tokens, SourceText source, Mistakes mistakes)
{
    /// <summary>Tokens before those that are left, the first of them last.</summary>
    private readonly List<IToken> _putBack = [];
    private int _next;

    /// <summary>What came out.</summary>
    public List<IToken> Fixed { get; } = new(tokens.Count);

    /// <summary>Takes what is found.</summary>
    public Mistakes Mistakes => mistakes;

    /// <summary>Whether tokens are left.</summary>
    public bool HasNext => _putBack.Count > 0 || _next < tokens.Count;

    /// <summary>Whether what came out last is the first word of its statement.</summary>
    public bool IsSecond => Before(1) is { } first && Words.IsWord(first.Type) &&
        Before(2)?.Type is null or WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE;

    /// <summary>Whether nothing of the statement came out yet.</summary>
    public bool IsFirst => Before(1)?.Type is null or WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE;

    /// <summary>The first token of the statement that came out; null where there is none.</summary>
    public IToken? First
    {
        get
        {
            var start = Fixed.FindLastIndex(token => token.Type is WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE) + 1;
            return start < Fixed.Count ? Fixed[start] : null;
        }
    }

    /// <summary>Goes on to the next token.</summary>
    public IToken Take()
    {
        if (_putBack.Count == 0) return tokens[_next++];
        var token = _putBack[^1];
        _putBack.RemoveAt(_putBack.Count - 1);
        return token;
    }

    /// <summary>Goes over some tokens.</summary>
    public void Skip(int count)
    {
        for (; count > 0; count--) Take();
    }

    /// <summary>Puts tokens before those that are left.</summary>
    public void PutBack(IEnumerable<IToken> put) => _putBack.AddRange(put.Reverse());

    /// <summary>A token that is left.</summary>
    public IToken? Ahead(int count)
    {
        if (count < _putBack.Count) return _putBack[^(count + 1)];
        var index = _next + count - _putBack.Count;
        return index < tokens.Count ? tokens[index] : null;
    }

    /// <summary>A token that came out: 1 is the last.</summary>
    public IToken? Before(int count) => Fixed.Count >= count ? Fixed[^count] : null;

    /// <summary>How many tokens stand before one that is looked for; null where the line ends before it.</summary>
    public int? CountTo(Func<IToken, bool> isIt)
    {
        for (var count = 0; Ahead(count) is { Type: not (WaterScriptLexer.NEWLINE or TokenConstants.EOF) } token; count++)
        {
            if (isIt(token)) return count;
        }

        return null;
    }

    /// <summary>How many tokens are left before the end of the line or a brace.</summary>
    public int LeftInStatement()
    {
        var count = 0;
        while (Ahead(count) is { Type: not (WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE or TokenConstants.EOF) }) count++;
        return count;
    }

    /// <summary>Lets a token come out as it is.</summary>
    public void Add(IToken token) => Fixed.Add(token);

    /// <summary>Lets a token come out in another form, with advice.</summary>
    public void Rewrite(IToken token, int type, string form) => Merge(token, token, type, form);

    /// <summary>Lets several tokens come out as one, with advice.</summary>
    public void Merge(IToken first, IToken last, int type, string form)
    {
        var merged = TokenSpans.Make(type, first.SpanTo(last), form);
        mistakes.Unusual(merged.Span(), form);
        Fixed.Add(merged);
    }

    /// <summary>What the file says from one token to another, blanks and all.</summary>
    public string TextOf(IToken first, IToken last) => source.Slice(first.SpanTo(last));

    /// <summary>The tokens of a text that stands at a place of the file.</summary>
    public static IEnumerable<IToken> Lexed(string text, int start)
    {
        for (var scanner = new Scanner(text); scanner.MoveNext();)
        {
            if (scanner.Type != WaterScriptLexer.COMMENT)
                yield return TokenSpans.Make(scanner.Type, new TextSpan(start + scanner.Start, scanner.Span.Length), scanner.Text);
        }
    }
}
