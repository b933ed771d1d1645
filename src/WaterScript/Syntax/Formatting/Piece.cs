using Antlr4.Runtime;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Formatting;

/// <summary>A token or a comment of a file that is to be laid out.</summary>
/// <param name="Type">The lexer's type of it.</param>
/// <param name="Text">As it is to be written.</param>
/// <param name="Line">The line where it stood, from 1.</param>
internal readonly record struct Piece(int Type, string Text, int Line)
{
    /// <summary>Whether it is a comment.</summary>
    public bool IsComment => Type == WaterScriptLexer.COMMENT;

    /// <summary>Whether it ends a statement: a line end or <c>;</c>.</summary>
    public bool IsStatementEnd => Type == WaterScriptLexer.NEWLINE;

    /// <summary>Whether it is a <c>;</c>.</summary>
    public bool IsSemicolon => IsStatementEnd && Text == ";";

    /// <summary>Whether nothing of its block follows.</summary>
    public bool IsBlockEnd => Type is WaterScriptLexer.RBRACE or TokenConstants.EOF;

    /// <summary>Whether a statement goes on over a line end after it.</summary>
    public bool GoesOn => Type is WaterScriptLexer.COMMA or WaterScriptLexer.PLUS or WaterScriptLexer.EQUALS;
}
