using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>Text to tokens: sets comments aside and takes out the line ends that end no statement.</summary>
internal static class TokenReader
{
    /// <summary>Reads all tokens of a file; null where its braces lie too deep to be parsed.</summary>
    public static (TokenList? Tokens, ImmutableArray<TextSpan> Comments) Read(SourceText source, Mistakes mistakes)
    {
        var lexer = new WaterScriptLexer(new AntlrInputStream(source.Text), TextWriter.Null, TextWriter.Null);
        lexer.RemoveErrorListeners();
        var conflicts = MergeConflict.In(source);
        foreach (var conflict in conflicts) mistakes.Add(conflict.Finding);
        var tokens = new List<IToken>();
        var comments = ImmutableArray.CreateBuilder<TextSpan>();
        for (var token = lexer.NextToken(); ; token = lexer.NextToken())
        {
            if (token.Type == WaterScriptLexer.COMMENT) comments.Add(token.Span());
            else if (token.Type == TokenConstants.EOF || (!IsDropped(token, conflicts) && !IsIdle(token, tokens))) Add(token, tokens);
            if (token.Type == TokenConstants.EOF) break;
        }

        var braces = new Braces(new TokenNormalizer(tokens, mistakes).Normalize(), source, mistakes);
        if (!braces.AreShallow()) return (null, comments.DrainToImmutable());
        var corrected = braces.Balance();
        for (var i = 0; i < corrected.Count; i++) ((IWritableToken)corrected[i]).TokenIndex = i;
        return (new TokenList(corrected, lexer), comments.DrainToImmutable());
    }

    private static bool IsDropped(IToken token, ImmutableArray<MergeConflict> conflicts)
    {
        foreach (var conflict in conflicts)
        {
            if (conflict.Drops(token.StartIndex)) return true;
        }

        return false;
    }

    /// <summary>Whether a line ends after a token that lets the statement go on.</summary>
    private static bool IsIdle(IToken token, List<IToken> before) =>
        IsLineEnd(token) && before.Count > 0 &&
        before[^1].Type is WaterScriptLexer.COMMA or WaterScriptLexer.PLUS or WaterScriptLexer.EQUALS or WaterScriptLexer.LBRACE;

    private static bool IsLineEnd(IToken token) => token.Type == WaterScriptLexer.NEWLINE && token.Text != ";";

    private static void Add(IToken token, List<IToken> tokens)
    {
        if (token.Type == WaterScriptLexer.LBRACE)
        {
            while (tokens.Count > 0 && IsLineEnd(tokens[^1])) tokens.RemoveAt(tokens.Count - 1);
        }

        tokens.Add(token);
    }
}
