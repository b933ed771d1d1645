using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary><c>every 5 days</c></summary>
internal sealed record EveryNode(TextSpan Span, IntervalNode Interval) : StatementNode(Span);

/// <summary><c>on mon, wed to fri, odd days</c></summary>
internal sealed record OnNode(TextSpan Span, ImmutableArray<DayNode> Days) : StatementNode(Span);

/// <summary><c>manual</c></summary>
internal sealed record ManualNode(TextSpan Span) : StatementNode(Span);

/// <summary><c>from D</c>, <c>from D to D</c>, <c>from D for 3 weeks</c>: at most one of <paramref name="To"/> and <paramref name="For"/>.</summary>
internal sealed record FromNode(TextSpan Span, DateNode First, DateNode? To, RowNode? For) : StatementNode(Span);

/// <summary><c>except DAYS</c>, <c>except every 2 weeks on fri</c> (one <see cref="IntervalNode"/>).</summary>
internal sealed record ExceptNode(TextSpan Span, ImmutableArray<DayNode> Days) : StatementNode(Span);

/// <summary><c>start at T, T [on DAYS]</c>; <paramref name="On"/> is empty without <c>on</c>.</summary>
internal sealed record StartAtNode(TextSpan Span, ImmutableArray<MomentNode> Moments, ImmutableArray<DayNode> On) : StatementNode(Span);

/// <summary><c>finish by T [on DAYS]</c></summary>
internal sealed record FinishByNode(TextSpan Span, ImmutableArray<MomentNode> Moments, ImmutableArray<DayNode> On) : StatementNode(Span);

/// <summary><c>start after OTHER [+ 10 min]</c></summary>
internal sealed record StartAfterNode(TextSpan Span, NameNode Other, RowNode? Delay) : StatementNode(Span);

/// <summary><c>repeat every 45 min for 4 passes</c>, <c>repeat every 8 min until T [next day]</c>.</summary>
internal sealed record RepeatPassesNode(TextSpan Span, RowNode Every, NumberNode? Passes, MomentNode? Until, bool NextDay) : StatementNode(Span);

/// <summary><c>cut off at T [next day]</c></summary>
internal sealed record CutNode(TextSpan Span, MomentNode At, bool NextDay) : StatementNode(Span);

/// <summary><c>scale NAME</c> or <c>scale 80 %</c>, the row after <c>scale</c>.</summary>
internal sealed record UseScaleNode(TextSpan Span, RowNode Value) : StatementNode(Span);

/// <summary><c>note "…"</c></summary>
internal sealed record NoteNode(TextSpan Span, StringNode Text) : StatementNode(Span);

/// <summary><c>formerly NAME</c></summary>
internal sealed record FormerlyNode(TextSpan Span, NameNode Name) : StatementNode(Span);

/// <summary><c>steps { … }</c></summary>
internal sealed record StepsNode(TextSpan Span, ImmutableArray<StepNode> Steps) : StatementNode(Span);

/// <summary><c>skip evening, dawn on 2026-07-04 because "…"</c></summary>
internal sealed record SkipNode(TextSpan Span, ImmutableArray<NameNode> Schedules, ImmutableArray<DayNode> Days, StringNode Because) : StatementNode(Span);

/// <summary><c>keep to stage-2</c>, at the top of a file for all schedules, or in one.</summary>
internal sealed record KeepNode(TextSpan Span, NameNode Restriction) : StatementNode(Span);

/// <summary><c>days holidays ["label"] = 2026-07-01 to 2026-08-15, 25 dec</c></summary>
internal sealed record NamedDaysNode(TextSpan Span, NameNode Name, StringNode? Label, ImmutableArray<DayNode> Days) : StatementNode(Span);
