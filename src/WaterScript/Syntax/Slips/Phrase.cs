using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Quantities;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Slips;

/// <summary>A statement as its tokens, up to its brace.</summary>
/// <param name="Source">The file.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="Kind">The word of the block that it stands in; empty at the top.</param>
/// <param name="Tokens">The tokens; there is one at least.</param>
/// <param name="HasBlock">Whether a brace follows.</param>
internal sealed record Phrase(SourceText Source, Place Place, string Kind, ImmutableArray<IToken> Tokens, bool HasBlock)
{
    /// <summary>How many tokens it has.</summary>
    public int Length => Tokens.Length;

    /// <summary>The type of a token; that of the end of a line where there is none.</summary>
    public int Type(int index) => index >= 0 && index < Tokens.Length ? Tokens[index].Type : WaterScriptLexer.NEWLINE;

    /// <summary>The text of a token; empty where there is none.</summary>
    public string Text(int index) => index >= 0 && index < Tokens.Length ? Tokens[index].Text : "";

    /// <summary>Where the first token of a type stands, from a place on; -1 where none does.</summary>
    public int Find(int type, int from = 0)
    {
        for (var i = from; i < Tokens.Length; i++)
        {
            if (Tokens[i].Type == type) return i;
        }

        return -1;
    }

    /// <summary>Whether a token begins a moment of a day.</summary>
    public bool IsMoment(int index) => Type(index) is WaterScriptLexer.CLOCK or WaterScriptLexer.SUNRISE or WaterScriptLexer.SUNSET;

    /// <summary>Whether two tokens are a number and a unit of time.</summary>
    public bool IsTime(int index) => Type(index) == WaterScriptLexer.NUMBER && Units.Find(Text(index + 1), Dimension.Time) is not null;

    /// <summary>Whether nothing but spaces stands between a token and the next.</summary>
    public bool IsSpaced(int index) =>
        Source.Text.AsSpan(Tokens[index].StopIndex + 1, Math.Max(0, Tokens[index + 1].StartIndex - Tokens[index].StopIndex - 1)).Trim(" \t").IsEmpty;

    /// <summary>Whether a token can be a name and is no other word of the language.</summary>
    public bool IsWord(int index) => Type(index) == WaterScriptLexer.WORD;
}
