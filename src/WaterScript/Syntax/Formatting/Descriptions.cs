using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;

namespace WaterScript.Syntax.Formatting;

/// <summary>Distinguishes descriptions, whose properties stand in columns, from other statements.</summary>
internal static class Descriptions
{
    /// <summary>Whether a statement at the top of a file is a description: <c>zone lawn { … }</c>. It begins with no word of another statement.</summary>
    public static bool IsAtTop(StatementItem statement) => statement.Body is not null && statement.Words[0].Type is not (
        WaterScriptLexer.EXTRA or WaterScriptLexer.SEQUENCE or WaterScriptLexer.RESTRICTION or WaterScriptLexer.SCHEDULE);

    /// <summary>
    /// Whether a statement of a description is a property with a value that stands in a column: <c>flow  18 L/min</c>. Lines of a month
    /// or a date, <c>at most</c> and <c>accept</c> read like sentences.
    /// </summary>
    public static bool IsProperty(StatementItem statement) =>
        statement is { Body: null, Words: [var first, _, ..] }
        && first.Type is not (WaterScriptLexer.AT or WaterScriptLexer.BY or WaterScriptLexer.ACCEPT)
        && first.Text != "since"
        && KnownTypos.Month(first.Text) is null;
}
