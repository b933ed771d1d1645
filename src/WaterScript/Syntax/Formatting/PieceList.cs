using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Syntax.Formatting;

/// <summary>The tokens and comments of a file in their order, each in the form in which it is to be written.</summary>
internal static class PieceList
{
    /// <summary>Reads a file without errors; its last piece is its end.</summary>
    public static ImmutableArray<Piece> Of(SourceText source)
    {
        var (tokens, comments) = TokenReader.Read(source, new Mistakes(source));
        return Of(source, tokens ?? throw new ArgumentException("the file has errors", nameof(source)), comments);
    }

    /// <summary>The pieces of a file that was read.</summary>
    /// <param name="source">The file.</param>
    /// <param name="tokens">Its tokens.</param>
    /// <param name="comments">Where its comments are.</param>
    public static ImmutableArray<Piece> Of(SourceText source, TokenList tokens, ImmutableArray<TextSpan> comments)
    {
        var pieces = ImmutableArray.CreateBuilder<Piece>(tokens.Size + comments.Length);
        var comment = 0;
        for (var i = 0; i < tokens.Size; i++)
        {
            var token = tokens.Get(i);
            for (; comment < comments.Length && comments[comment].Start < token.StartIndex; comment++) Add(CommentAt(comments[comment]));
            Add(new Piece(token.Type, Form(token, i == 0 ? null : tokens.Get(i - 1)), LineOf(token.StartIndex)));
        }

        return pieces.DrainToImmutable();

        void Add(Piece piece) => pieces.Add(piece);
        Piece CommentAt(TextSpan span) => new(WaterScriptLexer.COMMENT, source.Slice(span).TrimEnd(), LineOf(span.Start));
        int LineOf(int offset) => source.PositionOf(offset).Line;
    }

    /// <summary>What two files have in common that differ in layout alone: their tokens and comments, without the line ends that mean nothing.</summary>
    public static bool SaysTheSame(ImmutableArray<Piece> first, ImmutableArray<Piece> second) =>
        Comments(first).SequenceEqual(Comments(second)) && Tokens(first).SequenceEqual(Tokens(second));

    private static IEnumerable<string> Comments(ImmutableArray<Piece> pieces) => pieces.Where(piece => piece.IsComment).Select(piece => piece.Text);

    /// <summary>Each end of a statement is one token, whatever it is written with; there is none where a block or the file begins or ends.</summary>
    private static IEnumerable<string> Tokens(ImmutableArray<Piece> pieces)
    {
        var hasEnded = false;
        var before = WaterScriptLexer.LBRACE;
        foreach (var piece in pieces)
        {
            if (piece.IsComment) continue;
            if (piece.IsStatementEnd)
            {
                hasEnded = true;
                continue;
            }

            if (hasEnded && before != WaterScriptLexer.LBRACE && !piece.IsBlockEnd) yield return ";";
            yield return piece.Text;
            hasEnded = false;
            before = piece.Type;
        }
    }

    /// <summary>After a number the language has two forms of some words; one thing is singular.</summary>
    private static string Form(IToken token, IToken? before)
    {
        if (before?.Type != WaterScriptLexer.NUMBER) return token.Text;
        var isOne = before.Text == "1";
        return token.Type switch
        {
            WaterScriptLexer.DAY or WaterScriptLexer.DAYS => isOne ? "day" : "days",
            WaterScriptLexer.WEEK or WaterScriptLexer.WEEKS => isOne ? "week" : "weeks",
            WaterScriptLexer.PASS or WaterScriptLexer.PASSES => isOne ? "pass" : "passes",
            WaterScriptLexer.TIME or WaterScriptLexer.TIMES => isOne ? "time" : "times",
            _ => token.Text,
        };
    }
}
