using System.Collections.Immutable;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Editing.Completion;

/// <summary>Where a cursor stands, as far as can be seen from the words before it, whether they can be read or not.</summary>
/// <param name="Heads">The first words of the blocks around it, the outermost first.</param>
/// <param name="Before">What stands before it in its statement.</param>
/// <param name="Replaced">The word that has been begun; empty where none has.</param>
/// <param name="Stated">The first words of the statements in its block.</param>
internal sealed record CursorPlace(
    ImmutableArray<ImmutableArray<Lexeme>> Heads, ImmutableArray<Lexeme> Before, TextSpan Replaced, ImmutableArray<string> Stated)
{
    /// <summary>The first word of the block around it; empty at the top of a file.</summary>
    public string Block => Heads is [.., [var first, ..]] ? first.Text : "";

    /// <summary>The last word before it; empty where its statement begins.</summary>
    public string Last => Before is [.., var last] ? last.Text : "";

    /// <summary>Whether the last before it is a number.</summary>
    public bool IsAfterNumber => Before is [.., { Kind: TokenKind.Number }];

    /// <summary>The first word of its statement; empty where it begins.</summary>
    public string First => Before is [var first, ..] ? first.Text : "";

    /// <summary>Whether a word stands before it in its statement.</summary>
    public bool Has(string word) => Before.Any(lexeme => lexeme.Text == word);

    /// <summary>The place of an offset; null in a comment or a text.</summary>
    public static CursorPlace? At(SourceText source, ImmutableArray<Lexeme> lexemes, int offset)
    {
        ArgumentNullException.ThrowIfNull(source);
        var index = Lexemes.IndexAt(lexemes, offset - 1);
        var replaced = new TextSpan(offset, 0);
        if (index < lexemes.Length && lexemes[index].Span.Start < offset)
        {
            var at = lexemes[index];
            if (at.IsComment || at.Kind == TokenKind.String) return null;
            if (at.IsWord || at.Kind is TokenKind.Path) replaced = at.Span;
            else if (!at.IsEnd) index++;
        }

        var end = index;
        var start = end;
        while (start > 0 && !lexemes[start - 1].IsEnd && !lexemes[start - 1].IsOpen && !lexemes[start - 1].IsClose) start--;
        return new CursorPlace(HeadsAt(lexemes, start), Words(lexemes[start..end]), replaced, StatedAround(lexemes, start));
    }

    private static ImmutableArray<Lexeme> Words(ImmutableArray<Lexeme> lexemes) => [.. lexemes.Where(lexeme => !lexeme.IsComment && !lexeme.IsEnd)];

    /// <summary>The statements whose braces are open.</summary>
    private static ImmutableArray<ImmutableArray<Lexeme>> HeadsAt(ImmutableArray<Lexeme> lexemes, int end)
    {
        var open = new List<ImmutableArray<Lexeme>>();
        var head = new List<Lexeme>();
        for (var i = 0; i < end; i++)
        {
            var lexeme = lexemes[i];
            if (lexeme.IsOpen) open.Add([.. head]);
            else if (lexeme.IsClose && open.Count > 0) open.RemoveAt(open.Count - 1);
            if (lexeme.IsOpen || lexeme.IsClose || lexeme.IsEnd) head.Clear();
            else if (!lexeme.IsComment) head.Add(lexeme);
        }

        return [.. open];
    }

    private static ImmutableArray<string> StatedAround(ImmutableArray<Lexeme> lexemes, int place)
    {
        var (depth, first) = (0, place);
        while (first > 0 && depth >= 0)
        {
            first--;
            if (lexemes[first].IsClose) depth++;
            else if (lexemes[first].IsOpen) depth--;
        }

        if (depth >= 0) return FirstWords(lexemes, 0);
        return FirstWords(lexemes, first + 1);
    }

    /// <summary>The first words of the statements from a place to the end of their block.</summary>
    private static ImmutableArray<string> FirstWords(ImmutableArray<Lexeme> lexemes, int from)
    {
        var words = ImmutableArray.CreateBuilder<string>();
        var (depth, isFirst) = (0, true);
        for (var i = from; i < lexemes.Length && depth >= 0; i++)
        {
            var lexeme = lexemes[i];
            if (lexeme.IsOpen) depth++;
            else if (lexeme.IsClose) depth--;
            if (depth == 0 && isFirst && lexeme.IsWord) words.Add(lexeme.Text);
            if (!lexeme.IsComment) isFirst = lexeme.IsEnd || lexeme.IsOpen || lexeme.IsClose;
        }

        return words.ToImmutable();
    }
}
