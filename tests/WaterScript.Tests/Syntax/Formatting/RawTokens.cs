using Antlr4.Runtime;
using WaterScript.Syntax.Generated;

namespace WaterScript.Tests.Syntax.Formatting;

/// <summary>What the lexer alone sees in a text, comments and line ends too.</summary>
internal static class RawTokens
{
    /// <summary>All tokens but the end of the file.</summary>
    public static List<IToken> Of(string text)
    {
        var lexer = new WaterScriptLexer(new AntlrInputStream(text), TextWriter.Null, TextWriter.Null);
        lexer.RemoveErrorListeners();
        var tokens = new List<IToken>();
        for (var token = lexer.NextToken(); token.Type != TokenConstants.EOF; token = lexer.NextToken()) tokens.Add(token);
        return tokens;
    }

    /// <summary>What a text says: its words without their order among comments. A list of a day, a pass, a time counts like one of several.</summary>
    public static string Words(string text) =>
        string.Join(' ', Of(text).Where(token => token.Type is not (WaterScriptLexer.NEWLINE or WaterScriptLexer.COMMENT))
            .Select(token => OfSeveral(token.Text)));

    /// <summary>Its comments.</summary>
    public static IEnumerable<string> Comments(string text) =>
        Of(text).Where(token => token.Type == WaterScriptLexer.COMMENT).Select(token => token.Text.TrimEnd());

    private static string OfSeveral(string word) => word switch
    {
        "day" => "days",
        "week" => "weeks",
        "pass" => "passes",
        "time" => "times",
        _ => word,
    };
}
