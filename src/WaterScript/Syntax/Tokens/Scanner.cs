using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>
/// Text to tokens, one after the other, as <c>grammar/WaterScriptLexer.g4</c> says. What ANTLR's lexer finds by trying all rules at once, the first character
/// of a token decides here; tests compare both, token by token.
/// </summary>
/// <param name="text">The text; any UTF-16, well formed or not.</param>
internal sealed class Scanner(string text)
{
    /// <summary>Words and numbers that were seen: most come again and again, and are held once.</summary>
    private readonly HashSet<string>.AlternateLookup<ReadOnlySpan<char>> _seen =
        new HashSet<string>(StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();

    private int _end;

    /// <summary>Type of the token, in the grammar's numbers; blanks are none.</summary>
    public int Type { get; private set; }

    /// <summary>Offset of its first character.</summary>
    public int Start { get; private set; }

    /// <summary>Where it stands.</summary>
    public TextSpan Span => TextSpan.FromBounds(Start, _end);

    /// <summary>As written.</summary>
    public string Text { get; private set; } = "";

    /// <summary>Goes to the next token.</summary>
    /// <returns>Whether there is one.</returns>
    public bool MoveNext()
    {
        while (_end < text.Length && Letters.IsBlank(text[_end])) _end++;
        if (_end == text.Length) return false;
        Start = _end++;
        var first = text[Start];
        if (Letters.IsLetter(first)) TakeWord();
        else if (char.IsAsciiDigit(first) || (first == '.' && char.IsAsciiDigit(At(_end)))) TakeNumber();
        else TakeSign(first);
        return true;
    }

    /// <summary>The token, for the parser.</summary>
    public IToken ToToken() => TokenSpans.Make(Type, Span, Text);

    /// <summary>The end of a text, for the parser.</summary>
    public static IToken EndOf(string text) => TokenSpans.Make(TokenConstants.EOF, new TextSpan(text.Length, 0), "<EOF>");

    private void TakeWord()
    {
        TakeWhile(Letters.IsOfWord);
        var word = _end;
        while (At(_end) == '/' && IsOfPath(At(_end + 1)))
        {
            _end++;
            TakeWhile(IsOfPath);
        }

        if (_end > word) Become(WaterScriptLexer.PATH, Once());
        else if (Words.Find(text.AsSpan(Start, _end - Start)) is { } keyword) Become(keyword.Type, keyword.Text);
        else Become(WaterScriptLexer.WORD, Once());
    }

    private void TakeNumber()
    {
        TakeWhile(IsOfNumber);
        Become(NumberShape.TypeOf(text.AsSpan(Start, _end - Start)), Once());
    }

    private void TakeSign(char first)
    {
        switch (first)
        {
            case '\n': Become(WaterScriptLexer.NEWLINE, "\n"); break;
            case ';': Become(WaterScriptLexer.NEWLINE, ";"); break;
            case '\r': TakeCarriageReturn(); break;
            case '{': Become(WaterScriptLexer.LBRACE, "{"); break;
            case '}': Become(WaterScriptLexer.RBRACE, "}"); break;
            case ',': Become(WaterScriptLexer.COMMA, ","); break;
            case '+': Become(WaterScriptLexer.PLUS, "+"); break;
            case '=': Become(WaterScriptLexer.EQUALS, "="); break;
            case '%': Become(WaterScriptLexer.PERCENT, "%"); break;
            case '-' or >= '\u2010' and <= '\u2015' or '\u2212': Become(WaterScriptLexer.MINUS, first.ToString()); break;
            case '#': TakeComment(); break;
            case '"': TakeLabel(); break;
            case '\u201C' or '\u201D' or '\u201E' or '\u201F' or '\u00AB': TakeCurlyLabel(); break;
            default: TakeOther(first); break;
        }
    }

    private void TakeCarriageReturn()
    {
        if (At(_end) == '\n') _end++;
        Become(WaterScriptLexer.NEWLINE, text[Start.._end]);
    }

    private void TakeComment()
    {
        var length = text.AsSpan(_end).IndexOfAny('\r', '\n');
        _end = length < 0 ? text.Length : _end + length;
        Become(WaterScriptLexer.COMMENT, text[Start.._end]);
    }

    /// <summary>A label up to its closing quote, or to the end of the line. A backslash takes what follows it on the line.</summary>
    private void TakeLabel()
    {
        for (; _end < text.Length && text[_end] is not ('"' or '\r' or '\n'); _end++)
        {
            if (text[_end] == '\\' && _end + 1 < text.Length && text[_end + 1] is not ('\r' or '\n')) _end++;
        }

        var isClosed = _end < text.Length && text[_end] == '"';
        if (isClosed) _end++;
        Become(isClosed ? WaterScriptLexer.STRING : WaterScriptLexer.OPEN_STRING, text[Start.._end]);
    }

    private void TakeCurlyLabel()
    {
        TakeWhile(IsOfCurlyLabel);
        var isClosed = _end < text.Length && text[_end] is '"' or '\u201C' or '\u201D' or '\u201F' or '\u00BB';
        if (isClosed) _end++;
        Become(isClosed ? WaterScriptLexer.CURLY_STRING : WaterScriptLexer.OPEN_STRING, text[Start.._end]);
    }

    private void TakeOther(char first)
    {
        if (char.IsHighSurrogate(first) && char.IsLowSurrogate(At(_end))) _end++;
        Become(WaterScriptLexer.OTHER, text[Start.._end]);
    }

    /// <summary>What is written, as the text that it was when it was seen first.</summary>
    private string Once()
    {
        var written = text.AsSpan(Start, _end - Start);
        if (_seen.TryGetValue(written, out var seen)) return seen;
        seen = written.ToString();
        _seen.Set.Add(seen);
        return seen;
    }

    private void Become(int type, string written) => (Type, Text) = (type, written);

    private void TakeWhile(Func<char, bool> isPart)
    {
        while (_end < text.Length && isPart(text[_end])) _end++;
    }

    /// <summary>A character; behind the end one that no token of several characters goes on with.</summary>
    private char At(int index) => index < text.Length ? text[index] : '\0';

    private static bool IsOfCurlyLabel(char c) =>
        c is not ('"' or '\u201C' or '\u201D' or '\u201E' or '\u201F' or '\u00AB' or '\u00BB' or '\r' or '\n');

    private static bool IsOfPath(char c) => c == '+' || Letters.IsOfWord(c);

    private static bool IsOfNumber(char c) => c is '.' or ':' or '/' or (>= '\u2010' and <= '\u2015') or '\u2212' || Letters.IsOfWord(c);
}
