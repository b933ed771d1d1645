using Antlr4.Runtime;
using WaterScript.Diagnostics;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>
/// Looks at the braces of a file before it is parsed. Where one is missing it is set where the indentation says, and reported
/// at the line that opens the block, so that the block and those after it are read as they were meant.
/// </summary>
internal sealed class Braces(List<IToken> tokens, SourceText source, Mistakes mistakes)
{
    private const int TabWidth = 4;

    private readonly List<IToken> _balanced = new(tokens.Count + 4);
    private readonly Stack<Block> _open = new();
    private readonly List<Line> _lines = [];
    private int _indent;

    /// <summary>Whether no brace lies deeper than the limit; the first that does is reported. Each is a call deeper for the parser.</summary>
    public bool AreShallow()
    {
        var depth = 0;
        foreach (var token in tokens)
        {
            if (token.Type == WaterScriptLexer.RBRACE && depth > 0) depth--;
            if (token.Type != WaterScriptLexer.LBRACE || ++depth <= Limits.NestingDepth) continue;
            mistakes.TooDeep(token.Span());
            return false;
        }

        return true;
    }

    /// <summary>The tokens with as many closing braces as opening ones.</summary>
    public List<IToken> Balance()
    {
        if (AreBalanced()) return tokens;
        foreach (var token in new LineBraces(tokens, source, mistakes).Balanced()) Take(token);
        return _balanced;
    }

    private bool AreBalanced()
    {
        var depth = 0;
        foreach (var token in tokens)
        {
            if (token.Type == WaterScriptLexer.LBRACE) depth++;
            if (token.Type == WaterScriptLexer.RBRACE && --depth < 0) return false;
        }

        return depth == 0;
    }

    private void Take(IToken token)
    {
        var isEnd = token.Type == TokenConstants.EOF;
        if (token.Type != WaterScriptLexer.NEWLINE && (isEnd || BeginsLine(token))) BeginLine(token, isEnd ? -1 : IndentOf(token));
        if (token.Type == WaterScriptLexer.LBRACE) _open.Push(new Block(token, _indent));
        if (token.Type == WaterScriptLexer.RBRACE && !IsOpen(token))
        {
            mistakes.StrayClose(token.Span());
            return;
        }

        _balanced.Add(token);
    }

    /// <summary>Whether there is a block for a closing brace to close: an open one, or one whose opening brace is set now.</summary>
    private bool IsOpen(IToken close)
    {
        if (BeginsLine(close) && (_open.Count == 0 || _open.Peek().Indent < _indent) && Head() is { } head)
        {
            Open(head);
            return true;
        }

        return _open.TryPop(out _);
    }

    /// <summary>The line that begins the block of a closing brace: the last one as deep as it, if a deeper one follows and it has no brace.</summary>
    private int? Head()
    {
        for (var i = _lines.Count - 2; i >= 0 && _lines[i].Indent >= _indent; i--)
        {
            if (_lines[i].Indent == _indent) return _lines[i + 1].Indent > _indent && MayOpen(i) ? i : null;
        }

        return null;
    }

    /// <summary>Whether a line has words and no brace. One of braces alone that close nothing has nothing left.</summary>
    private bool MayOpen(int line)
    {
        var hasWords = false;
        for (var i = _lines[line].First; i < _lines[line + 1].First; i++)
        {
            if (_balanced[i].Type is WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE) return false;
            hasWords |= _balanced[i].Type != WaterScriptLexer.NEWLINE;
        }

        return hasWords;
    }

    /// <summary>Sets an opening brace at the end of a line.</summary>
    private void Open(int line)
    {
        var at = _lines[line + 1].First;
        while (_balanced[at - 1].Type == WaterScriptLexer.NEWLINE) at--;
        var place = _balanced[at - 1].StopIndex + 1;
        mistakes.MissingOpen(new TextSpan(place, 0));
        _balanced.Insert(at, TokenSpans.Make(WaterScriptLexer.LBRACE, new TextSpan(place, 0), "{"));
        for (var i = line + 1; i < _lines.Count; i++) _lines[i] = _lines[i] with { First = _lines[i].First + 1 };
    }

    /// <summary>Closes the blocks that a line which stands no deeper than their own cannot be in.</summary>
    private void BeginLine(IToken token, int indent)
    {
        var closes = token.Type == WaterScriptLexer.RBRACE;
        while (_open.TryPeek(out var block) && (closes ? indent < block.Indent : indent <= block.Indent))
        {
            _open.Pop();
            mistakes.MissingClose(block.Brace.Span());
            Close();
        }

        _indent = indent;
        _lines.Add(new Line(_balanced.Count, indent));
    }

    /// <summary>Sets a closing brace before the line ends that have been passed, and a line end after it.</summary>
    private void Close()
    {
        var at = _balanced.Count;
        while (at > 0 && _balanced[at - 1].Type == WaterScriptLexer.NEWLINE) at--;
        var place = at > 0 ? _balanced[at - 1].StopIndex + 1 : 0;
        _balanced.Insert(at, TokenSpans.Make(WaterScriptLexer.RBRACE, new TextSpan(place, 0), "}"));
        if (at == _balanced.Count - 1) _balanced.Add(TokenSpans.Make(WaterScriptLexer.NEWLINE, new TextSpan(place, 0), ";"));
    }

    private bool BeginsLine(IToken token) => source.Text.AsSpan(LineStart(token), token.StartIndex - LineStart(token)).Trim(" \t").IsEmpty;

    private int IndentOf(IToken token)
    {
        var indent = 0;
        for (var i = LineStart(token); i < token.StartIndex; i++) indent += source.Text[i] == '\t' ? TabWidth - (indent % TabWidth) : 1;
        return indent;
    }

    private int LineStart(IToken token) => source.LineSpan(source.PositionOf(token.StartIndex).Line).Start;

    private sealed record Block(IToken Brace, int Indent);

    /// <summary>A line that has been passed.</summary>
    /// <param name="First">Index of its first token among the balanced ones.</param>
    /// <param name="Indent">How deep it stands.</param>
    private readonly record struct Line(int First, int Indent);
}
