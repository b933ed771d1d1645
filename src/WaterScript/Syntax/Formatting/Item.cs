using System.Collections.Immutable;

namespace WaterScript.Syntax.Formatting;

/// <summary>What stands on lines of its own: a statement or a comment.</summary>
/// <param name="IsAfterBlank">Whether a blank line stands before it.</param>
internal abstract record Item(bool IsAfterBlank);

/// <summary>A comment on a line of its own.</summary>
internal sealed record CommentItem(bool IsAfterBlank, string Text) : Item(IsAfterBlank);

/// <summary>A statement.</summary>
/// <param name="IsAfterBlank">Whether a blank line stands before it.</param>
/// <param name="Words">Its tokens up to its block, with the comments inside a list that goes on over lines.</param>
/// <param name="Body">Its block, or null.</param>
internal sealed record StatementItem(bool IsAfterBlank, ImmutableArray<Piece> Words, BlockLayout? Body) : Item(IsAfterBlank)
{
    /// <summary>The comment at the end of its last line, or null.</summary>
    public string? Comment { get; init; }
}

/// <summary>A block as it stood.</summary>
/// <param name="BeginsLine">Whether what is in it begins on a line after its brace: then it is never put on one line.</param>
/// <param name="Comment">The comment at the end of the line of its opening brace, or null.</param>
/// <param name="Items">What is in it.</param>
internal sealed record BlockLayout(bool BeginsLine, string? Comment, ImmutableArray<Item> Items)
{
    /// <summary>Whether it may stand on one line if that is not too long: it does so already, and holds no comment.</summary>
    public bool IsFlat { get; } = !BeginsLine && Comment is null && Items.All(IsFlatItem);

    private static bool IsFlatItem(Item item) =>
        item is StatementItem { Comment: null, Body: null or { IsFlat: true } } statement && !statement.Words.Any(word => word.IsComment);
}
