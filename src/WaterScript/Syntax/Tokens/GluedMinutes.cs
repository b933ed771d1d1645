using Antlr4.Runtime;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Tokens;

/// <summary>An <c>m</c> that can only be minutes: in <c>1h30m</c>, and in <c>20m</c> where a time has to stand.</summary>
internal static class GluedMinutes
{
    /// <summary>The parts of what stood without spaces, numbers and units in turns, with <c>min</c> in place of such an <c>m</c>.</summary>
    /// <param name="parts">The parts.</param>
    /// <param name="before">What stands before them, or null.</param>
    public static IReadOnlyList<IToken> Meant(IReadOnlyList<IToken> parts, IToken? before)
    {
        var isTime = before?.Type is WaterScriptLexer.FOR or WaterScriptLexer.PAUSE or WaterScriptLexer.SOAK or WaterScriptLexer.CYCLE;
        return [.. parts.Select((part, index) => part.Text == "m" && (isTime || (index >= 2 && parts[index - 2].Text == "h"))
            ? TokenSpans.Make(part.Type, part.Span(), "min")
            : part)];
    }
}
