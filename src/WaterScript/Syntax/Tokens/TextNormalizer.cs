using Antlr4.Runtime;
using WaterScript.Language;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>Goes over what people say in words of their own: labels and their quotes, comments, what stands in parentheses.</summary>
internal sealed class TextNormalizer(TokenCursor cursor)
{
    /// <summary><c>// so</c>, to the end of the line; <c>/* so */</c></summary>
    public bool NormalizeForeignComment(IToken token)
    {
        if (token.Text != "/" || cursor.Ahead(0) is not { Text: "/" or "*" } second || !TokenSpans.Touch(token, second)) return false;
        var isLine = second.Text == "/";
        cursor.Mistakes.ForeignComment(token.SpanTo(second), isLine);
        cursor.Skip(1);
        while (cursor.Ahead(0) is { Type: not (WaterScriptLexer.NEWLINE or TokenConstants.EOF) } inside)
        {
            cursor.Skip(1);
            if (isLine || inside.Text != "*" || cursor.Ahead(0) is not { Text: "/" } end || !TokenSpans.Touch(inside, end)) continue;
            cursor.Skip(1);
            break;
        }

        return true;
    }

    /// <summary><c>'Rose beds'</c>, <c>‘Rose beds’</c></summary>
    public bool NormalizeSingleQuotes(IToken token)
    {
        if (!IsSingleQuote(token)) return false;
        if (cursor.CountTo(IsSingleQuote) is not (> 0 and var count)) return false;
        var last = cursor.Ahead(count)!;
        var text = cursor.TextOf(token, last)[1..^1];
        cursor.Mistakes.SingleQuotes(token.SpanTo(last), text);
        var isName = cursor.IsSecond && cursor.Before(1)?.Type is not (WaterScriptLexer.NOTE or WaterScriptLexer.INCLUDE) && Names.IsWellFormed(text);
        cursor.Add(TokenSpans.Make(isName ? Words.TypeOf(text) : WaterScriptLexer.STRING, token.SpanTo(last), isName ? text : $"\"{text}\""));
        cursor.Skip(count + 1);
        return true;
    }

    private static bool IsSingleQuote(IToken token) => token.Type == WaterScriptLexer.OTHER && token.Text is "'" or "\u2018" or "\u2019" or "\u00B4" or "`";

    /// <summary><c>“Rose beds”</c></summary>
    public void NormalizeQuotes(IToken token)
    {
        var text = token.Text[1..^1];
        var endsInEscape = (text.Length - text.TrimEnd('\\').Length) % 2 == 1;
        cursor.Rewrite(token, WaterScriptLexer.STRING, $"\"{text}{(endsInEscape ? "\\" : "")}\"");
    }

    /// <summary>A label without its closing quote. It ends before the <c>{</c> of its line, so that the block is read, or with the line.</summary>
    public void NormalizeOpenLabel(IToken token)
    {
        var brace = token.Text.IndexOf('{', StringComparison.Ordinal);
        var text = (brace < 0 ? token.Text : token.Text[..brace]).TrimEnd();
        if (text.Length <= 1 || token.Text.Contains('\\', StringComparison.Ordinal)) text = token.Text;
        var rest = token.Text[text.Length..];
        cursor.PutBack(TokenCursor.Lexed(rest, token.StartIndex + text.Length));
        var label = new TextSpan(token.StartIndex, text.Length);
        cursor.Mistakes.OpenLabel(label);
        cursor.Add(TokenSpans.Make(WaterScriptLexer.STRING, label, $"\"{(text.EndsWith('\\') ? text[..^1] : text)[1..]}\""));
    }

    /// <summary>What stands after a word that a text in quotes follows, without them: <c>include parts.water</c>, <c>because new turf</c>.</summary>
    public bool NormalizeUnquoted(IToken token)
    {
        var (isPath, isReason) = (token.Type == WaterScriptLexer.INCLUDE && cursor.IsFirst, token.Type == WaterScriptLexer.BECAUSE && !cursor.IsFirst);
        if (!isPath && !isReason && (token.Type != WaterScriptLexer.NOTE || !cursor.IsFirst)) return false;
        if (cursor.Ahead(0) is not { } first || !(Words.IsWord(first.Type) || first.Type is WaterScriptLexer.PATH or WaterScriptLexer.NUMBER)) return false;
        var count = cursor.LeftInStatement();
        if (Enumerable.Range(0, count).Any(ahead => cursor.Ahead(ahead)!.Type is WaterScriptLexer.STRING or WaterScriptLexer.CURLY_STRING
            or WaterScriptLexer.OPEN_STRING)) return false;
        if (isReason && count > 2 && cursor.Ahead(count - 1)!.Type == WaterScriptLexer.DATE
            && cursor.Ahead(count - 2)!.Type == WaterScriptLexer.UNTIL) count -= 2;
        var last = cursor.Ahead(count - 1)!;
        cursor.Add(token);
        cursor.Mistakes.NoQuotes(first.SpanTo(last), token.Text);
        cursor.Add(TokenSpans.Make(WaterScriptLexer.STRING, first.SpanTo(last), $"\"{cursor.TextOf(first, last)}\""));
        cursor.Skip(count);
        return true;
    }

    /// <summary><c>water lawn (front) for 10 min</c>: a comment where it stands behind a word, else marks around what is read.</summary>
    public bool NormalizeParentheses(IToken token)
    {
        if (token.Text != "(") return false;
        if (cursor.CountTo(inside => inside.Text is ")" or "(" or "{" or "}") is not (> 0 and var count) || cursor.Ahead(count) is not { Text: ")" } last)
            return false;
        var isAside = !cursor.IsFirst && cursor.Before(1)!.Type is not (WaterScriptLexer.COMMA or WaterScriptLexer.PLUS or WaterScriptLexer.EQUALS
            or WaterScriptLexer.WATER or WaterScriptLexer.FOR or WaterScriptLexer.WITH or WaterScriptLexer.AT or WaterScriptLexer.ON);
        cursor.Mistakes.Parentheses(token.Span(), last.Span(), isAside);
        var inside = Enumerable.Range(0, count).Select(ahead => cursor.Ahead(ahead)!).ToList();
        cursor.Skip(count + 1);
        if (!isAside) cursor.PutBack(inside);
        return true;
    }
}
