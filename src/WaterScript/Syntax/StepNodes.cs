using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>A step.</summary>
internal abstract record StepNode(TextSpan Span) : Node(Span);

/// <summary>
/// <c>water LIST for [exactly] DURATION</c> or <c>water LIST with [exactly] AMOUNT</c>: one of <paramref name="For"/> and <paramref name="With"/>.
/// </summary>
internal sealed record WaterNode(TextSpan Span, ZoneListNode Zones, RowNode? For, RowNode? With) : StepNode(Span)
{
    /// <summary>What doses into it, or null.</summary>
    public DoseNode? Through { get; init; }

    /// <summary>Whether neither scale nor trim touches it.</summary>
    public bool IsExact { get; init; }
}

/// <summary><c>through INJECTOR</c>, <c>through INJECTOR for DURATION</c> or <c>through INJECTOR with AMOUNT</c></summary>
internal sealed record DoseNode(TextSpan Span, NameNode Injector, RowNode? For, RowNode? With) : Node(Span);

/// <summary>
/// <c>water beds for 10 min + pots for 4 min</c>: waterings that begin together. The span of the first begins with <c>water</c>; the injector stands in
/// the last, and doses into all.
/// </summary>
internal sealed record TogetherNode(TextSpan Span, ImmutableArray<WaterNode> Waters) : StepNode(Span);

/// <summary><c>pause 2 min</c></summary>
internal sealed record PauseNode(TextSpan Span, RowNode Duration) : StepNode(Span);

/// <summary><c>repeat 3 times { … }</c></summary>
internal sealed record RepeatStepsNode(TextSpan Span, NumberNode Times, ImmutableArray<StepNode> Steps) : StepNode(Span);

/// <summary><c>cycle 6 min soak 30 min { … }</c>, or <c>cycle auto { … }</c> when both rows are null.</summary>
internal sealed record CycleNode(TextSpan Span, RowNode? Cycle, RowNode? Soak, ImmutableArray<StepNode> Steps) : StepNode(Span);

/// <summary><c>run SEQUENCE</c></summary>
internal sealed record RunNode(TextSpan Span, NameNode Sequence) : StepNode(Span);
