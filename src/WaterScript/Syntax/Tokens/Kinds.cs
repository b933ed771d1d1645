using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Tokens;

/// <summary>What the tree calls the tokens of the grammar.</summary>
internal static class Kinds
{
    /// <summary>The kind of a token; every word of the language is a <see cref="TokenKind.Word"/>.</summary>
    public static TokenKind Of(int type) => type switch
    {
        WaterScriptLexer.PATH => TokenKind.Path,
        WaterScriptLexer.NUMBER => TokenKind.Number,
        WaterScriptLexer.DATE => TokenKind.Date,
        WaterScriptLexer.CLOCK => TokenKind.Clock,
        WaterScriptLexer.GLUED => TokenKind.Glued,
        WaterScriptLexer.MALFORMED => TokenKind.Malformed,
        WaterScriptLexer.STRING => TokenKind.String,
        WaterScriptLexer.COMMA => TokenKind.Comma,
        WaterScriptLexer.PLUS => TokenKind.Plus,
        WaterScriptLexer.MINUS => TokenKind.Minus,
        WaterScriptLexer.EQUALS => TokenKind.EqualsSign,
        WaterScriptLexer.PERCENT => TokenKind.Percent,
        >= WaterScriptLexer.INCLUDE and <= WaterScriptLexer.WORD => TokenKind.Word,
        _ => TokenKind.Other,
    };
}
