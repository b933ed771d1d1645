using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>A statement.</summary>
internal abstract record StatementNode(TextSpan Span) : Node(Span);

/// <summary><c>include "zones.water"</c></summary>
internal sealed record IncludeNode(TextSpan Span, StringNode Path) : StatementNode(Span);

/// <summary><c>let settle = 5 min</c>. The value is a quantity, or a date with or without an offset.</summary>
internal sealed record LetNode(TextSpan Span, NameNode Name, RowNode Value) : StatementNode(Span);

/// <summary><c>group front = lawn + beds, hedge</c></summary>
internal sealed record GroupNode(TextSpan Span, NameNode Name, StringNode? Label, ZoneListNode Zones) : StatementNode(Span);

/// <summary>
/// <c>hold [ZONES] from DATE [TIME] for DURATION because "…"</c>, or <c>to DATE [TIME]</c>, or <c>until lifted</c>.
/// Exactly one of <paramref name="For"/>, <paramref name="To"/> and <paramref name="UntilLifted"/> is there.
/// </summary>
/// <param name="Span">All of it.</param>
/// <param name="Zones">Null for the whole site.</param>
/// <param name="From">First day.</param>
/// <param name="FromTime">Null for the start of that day.</param>
/// <param name="For">How long, or null.</param>
/// <param name="To">Last day, or null.</param>
/// <param name="ToTime">Null for the end of that day.</param>
/// <param name="UntilLifted">Whether it has no end.</param>
/// <param name="Because">The reason.</param>
internal sealed record HoldNode(
    TextSpan Span,
    ZoneListNode? Zones,
    DateNode From,
    MomentNode? FromTime,
    RowNode? For,
    DateNode? To,
    MomentNode? ToTime,
    bool UntilLifted,
    StringNode Because) : StatementNode(Span);

/// <summary><c>closed from 20 oct to 5 apr because "drained"</c></summary>
internal sealed record ClosedNode(TextSpan Span, DateNode From, DateNode To, StringNode Because) : StatementNode(Span);

/// <summary><c>extra 2026-07-18 21:00 ["label"] because "…" { STEPS }</c></summary>
internal sealed record ExtraNode(
    TextSpan Span, DateNode Date, MomentNode Time, StringNode? Label, StringNode Because, ImmutableArray<StepNode> Steps) : StatementNode(Span);

/// <summary><c>accept RULE because "…" [until DATE]</c></summary>
internal sealed record AcceptNode(TextSpan Span, NameNode Rule, StringNode Because, DateNode? Until) : StatementNode(Span);

/// <summary><c>sequence NAME ["label"] { STEPS }</c>; an <c>accept</c> may stand among the steps.</summary>
internal sealed record SequenceNode(TextSpan Span, NameNode Name, StringNode? Label, ImmutableArray<StepNode> Steps, ImmutableArray<AcceptNode> Accepts)
    : StatementNode(Span);

/// <summary>A description block: <c>KIND NAME ["label"] { … }</c>.</summary>
/// <param name="Span">With its braces.</param>
/// <param name="Kind">The first word as written: <c>zone</c>, or a misspelt one.</param>
/// <param name="Header">The words after the kind: a name, and for a valve its type. Empty for <c>climate</c> and <c>power</c>.</param>
/// <param name="Label">The label, or null.</param>
/// <param name="Body">Properties, blocks inside it and <c>accept</c> statements, in order.</param>
internal sealed record BlockNode(TextSpan Span, NameNode Kind, ImmutableArray<NameNode> Header, StringNode? Label, ImmutableArray<StatementNode> Body)
    : StatementNode(Span)
{
    /// <summary>All that stands between the kind and the brace, for a property that is followed by braces by mistake.</summary>
    public required RowNode Row { get; init; }

    /// <summary>Its opening brace.</summary>
    public required TextSpan Brace { get; init; }
}

/// <summary>
/// A property with its value: <c>flow 18 L/min</c>. The row is empty where nothing follows, and a month line is a property called by its month.
/// </summary>
internal sealed record PropertyNode(TextSpan Span, NameNode Name, RowNode Value) : StatementNode(Span);

/// <summary>
/// <c>restriction NAME ["label"] { … }</c>. Its body holds the nodes of <c>RestrictionNodes.cs</c>, <see cref="AcceptNode"/> and <see cref="FromNode"/>.
/// </summary>
internal sealed record RestrictionNode(TextSpan Span, NameNode Name, StringNode? Label, ImmutableArray<StatementNode> Body) : StatementNode(Span);

/// <summary><c>schedule NAME ["label"] { … }</c>. Its body holds the nodes of <c>ScheduleNodes.cs</c> and <see cref="AcceptNode"/>.</summary>
internal sealed record ScheduleNode(TextSpan Span, NameNode Name, StringNode? Label, ImmutableArray<StatementNode> Body) : StatementNode(Span);
