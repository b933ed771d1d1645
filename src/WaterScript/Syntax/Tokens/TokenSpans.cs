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
    public static IToken Make(int type, TextSpan span, string text) => new PlacedToken(type, span, text);

    /// <summary>Whether nothing stands between two tokens.</summary>
    public static bool Touch(IToken first, IToken second) => first.StopIndex + 1 == second.StartIndex;

    /// <summary>Whether a clock shows such minutes and seconds; what it does not is reported as no time of day, and once.</summary>
    public static bool IsOfClock(string time) => time.Split(':').Skip(1).All(part => string.CompareOrdinal(part, "60") < 0);
}
