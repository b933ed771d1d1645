using Antlr4.Runtime;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>Between the parser's tokens, whose ends are included, and spans, whose ends are not.</summary>
internal static class TokenSpans
{
    /// <summary>Where a token stands; empty for one that has been put in.</summary>
    public static TextSpan Span(this IToken token) => TextSpan.FromBounds(token.StartIndex, token.StopIndex + 1);

    /// <summary>From the first token to the end of the last.</summary>
    public static TextSpan SpanTo(this IToken first, IToken last) => TextSpan.FromBounds(first.StartIndex, last.StopIndex + 1);

    /// <summary>A token in place of what stands in a span, or put in where the span is empty.</summary>
    public static CommonToken Make(int type, TextSpan span, string text) =>
        new(type, text) { StartIndex = span.Start, StopIndex = span.End - 1 };
}
