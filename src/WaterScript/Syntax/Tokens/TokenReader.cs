using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Slips;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>Text to tokens: sets comments aside and takes out the line ends that end no statement.</summary>
internal static class TokenReader
{
    /// <summary>A token has so many characters at least, with the blanks before it, unless a file is written very tightly.</summary>
    private const int CharactersOfToken = 3;

    /// <summary>Reads all tokens of a file; null where its braces lie too deep to be parsed.</summary>
    public static (TokenList? Tokens, ImmutableArray<TextSpan> Comments) Read(SourceText source, Mistakes mistakes)
    {
        var conflicts = MergeConflict.In(source);
        foreach (var conflict in conflicts) mistakes.Add(conflict.Finding);
        var tokens = new List<IToken>(source.Text.Length / CharactersOfToken);
        var comments = ImmutableArray.CreateBuilder<TextSpan>();
        for (var scanner = new Scanner(source.Text); scanner.MoveNext();)
        {
            if (scanner.Type == WaterScriptLexer.COMMENT) comments.Add(scanner.Span);
            else if (!IsDropped(scanner.Start, conflicts)) tokens.Add(scanner.ToToken());
        }

        tokens.Add(Scanner.EndOf(source.Text));
        LineEnds.TakeOut(tokens);
        var braces = new Braces(new TokenNormalizer(new TokenCursor(tokens, source, mistakes)).Normalize(), source, mistakes);
        if (!braces.AreShallow()) return (null, comments.DrainToImmutable());
        var corrected = new PhraseReader(braces.Balance(), source, mistakes).Correct();
        for (var i = 0; i < corrected.Count; i++) ((PlacedToken)corrected[i]).TokenIndex = i;
        return (new TokenList(corrected), comments.DrainToImmutable());
    }

    private static bool IsDropped(int offset, ImmutableArray<MergeConflict> conflicts)
    {
        foreach (var conflict in conflicts)
        {
            if (conflict.Drops(offset)) return true;
        }

        return false;
    }
}
