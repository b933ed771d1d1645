using System.Collections.Immutable;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Formatting;

/// <summary>
/// Pieces to items. It knows braces and ends of statements, no words. It calls itself once for each brace inside a brace, of
/// which a file without errors has no more than <see cref="Diagnostics.Limits.NestingDepth"/>.
/// </summary>
internal sealed class ItemReader(ImmutableArray<Piece> pieces)
{
    private readonly ImmutableArray<Piece>.Builder _words = ImmutableArray.CreateBuilder<Piece>();
    private int _next;
    private int _tokenLine;
    private int _line;
    private bool _isAfterBlank;

    private Piece Next => pieces[_next];

    /// <summary>The items up to the end of the block, or of the file.</summary>
    public ImmutableArray<Item> Read() => Read([]);

    private ImmutableArray<Item> Read(List<Item> items)
    {
        while (!Next.IsBlockEnd)
        {
            if (Next.IsStatementEnd) PassStatementEnd();
            else if (!Next.IsComment) items.Add(ReadStatement());
            else if (Next.Line == _tokenLine && items is [.., StatementItem { Comment: null } last]) items[^1] = last with { Comment = Take().Text };
            else items.Add(new CommentItem(IsAfterBlank(), Take().Text));
        }

        return [.. items];
    }

    private StatementItem ReadStatement()
    {
        var isAfterBlank = IsAfterBlank();
        _words.Clear();
        var goesOn = true;
        while (!Next.IsStatementEnd && !Next.IsBlockEnd && Next.Type != WaterScriptLexer.LBRACE && (!Next.IsComment || goesOn))
        {
            if (!Next.IsComment) goesOn = Next.GoesOn;
            _words.Add(Take());
        }

        if (!IsBeforeBrace()) return new StatementItem(isAfterBlank, _words.ToImmutable(), null);
        List<Piece> comments = [.. _words.Where(word => word.IsComment)];
        while (Next.IsComment) comments.Add(Take());
        return new StatementItem(isAfterBlank, [.. _words.Where(word => !word.IsComment)], ReadBlock(comments));
    }

    /// <summary>Whether a brace comes next, but for comments: the brace comes up to its head, and they go behind it.</summary>
    private bool IsBeforeBrace()
    {
        var at = _next;
        while (pieces[at].IsComment) at++;
        return pieces[at].Type == WaterScriptLexer.LBRACE;
    }

    private BlockLayout ReadBlock(List<Piece> comments)
    {
        var line = Take().Line;
        while (Next.IsSemicolon) PassStatementEnd();
        var beginsLine = Next.Line > line && !Next.IsBlockEnd;
        if (Next.IsComment && !beginsLine) comments.Add(Take());
        var items = Read([.. comments.Skip(1).Select(comment => new CommentItem(IsAfterBlank: false, comment.Text))]);
        Take();
        return new BlockLayout(beginsLine, comments is [var first, ..] ? first.Text : null, items);
    }

    private void PassStatementEnd()
    {
        var end = pieces[_next++];
        if (!end.IsSemicolon) return;
        _isAfterBlank |= end.Line > _line + 1;
        _line = end.Line;
    }

    /// <summary>Whether a blank line stands between the last item and the next piece; empty statements do not count.</summary>
    private bool IsAfterBlank() => _isAfterBlank || Next.Line > _line + 1;

    private Piece Take()
    {
        var piece = pieces[_next++];
        if (!piece.IsComment) _tokenLine = piece.Line;
        _line = piece.Line;
        _isAfterBlank = false;
        return piece;
    }
}
