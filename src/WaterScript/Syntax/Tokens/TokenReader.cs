using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Slips;
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
            else if (token.Type == TokenConstants.EOF || !IsDropped(token, conflicts)) tokens.Add(token);
            if (token.Type == TokenConstants.EOF) break;
        }

        var braces = new Braces(new TokenNormalizer(new TokenCursor(LineEnds.Without(tokens), source, mistakes)).Normalize(), source, mistakes);
        if (!braces.AreShallow()) return (null, comments.DrainToImmutable());
        var corrected = new PhraseReader(braces.Balance(), source, mistakes).Correct();
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
}
