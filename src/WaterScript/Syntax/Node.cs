using System.Collections.Immutable;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>A node of the tree; immutable.</summary>
/// <param name="Span">From its first token to the end of its last.</param>
internal abstract record Node(TextSpan Span);

/// <summary>A whole file.</summary>
/// <param name="Source">Its text.</param>
/// <param name="Statements">What stands at its top, in order; what could not be read is left out.</param>
/// <param name="Comments">Spans of the comments, from <c>#</c> to before the end of the line, in order.</param>
internal sealed record FileNode(SourceText Source, ImmutableArray<StatementNode> Statements, ImmutableArray<TextSpan> Comments)
    : Node(new TextSpan(0, Source.Text.Length))
{
    /// <summary>Words of statements at its top that could not be read, which may be names.</summary>
    public ImmutableArray<string> UnreadNames { get; init; } = [];
}

/// <summary>A name or a word as written.</summary>
internal sealed record NameNode(TextSpan Span, string Text) : Node(Span);

/// <summary>A quoted text.</summary>
/// <param name="Span">With its quotes.</param>
/// <param name="Value">What it says, its escapes read.</param>
internal sealed record StringNode(TextSpan Span, string Value) : Node(Span);

/// <summary>A bare whole number: a count or the number of a thing.</summary>
internal sealed record NumberNode(TextSpan Span, decimal Value) : Node(Span);

/// <summary>A row of tokens to be read by the type that is expected there: a property's value, a duration, an amount.</summary>
internal sealed record RowNode(TextSpan Span, ImmutableArray<Token> Tokens) : Node(Span);

/// <summary>Zones: each part is one name, or several joined by a plus.</summary>
internal sealed record ZoneListNode(TextSpan Span, ImmutableArray<ZonePartNode> Parts) : Node(Span);

/// <summary>Zones that are on together.</summary>
internal sealed record ZonePartNode(TextSpan Span, ImmutableArray<NameNode> Names) : Node(Span);

/// <summary>A date: a base, and perhaps whole days or weeks before or after it.</summary>
/// <param name="Span">All of it.</param>
/// <param name="Base">What it is calculated from.</param>
/// <param name="Offset">A duration of days or weeks, or null.</param>
/// <param name="IsBefore">Whether the offset is taken off.</param>
internal sealed record DateNode(TextSpan Span, DateBaseNode Base, RowNode? Offset, bool IsBefore) : Node(Span);

/// <summary>What a date is calculated from.</summary>
internal abstract record DateBaseNode(TextSpan Span) : Node(Span);

/// <summary><c>2026-05-01</c>, as written.</summary>
internal sealed record IsoDateNode(TextSpan Span, string Text) : DateBaseNode(Span);

/// <summary><c>25 dec</c>, or <c>last feb</c> when <paramref name="Day"/> is null. The month is as written.</summary>
internal sealed record MonthDayNode(TextSpan Span, NumberNode? Day, NameNode Month) : DateBaseNode(Span);

/// <summary>The name of a <c>let</c>.</summary>
internal sealed record LetDateNode(TextSpan Span, string Name) : DateBaseNode(Span);

/// <summary>A moment of a day: a clock time or a sun event, and perhaps an offset.</summary>
/// <param name="Span">All of it.</param>
/// <param name="Base">As written: <c>06:00</c>, <c>sunrise</c>, <c>sunset</c>.</param>
/// <param name="Suffix">A word such as <c>pm</c> right after a clock time, or null.</param>
/// <param name="Offset">A duration, or null.</param>
/// <param name="IsBefore">Whether the offset is taken off.</param>
internal sealed record MomentNode(TextSpan Span, Token Base, NameNode? Suffix, RowNode? Offset, bool IsBefore) : Node(Span);
