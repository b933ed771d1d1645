using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary><c>for lawn, herbs</c></summary>
internal sealed record ForZonesNode(TextSpan Span, ZoneListNode Zones) : StatementNode(Span);

/// <summary><c>allow on odd days</c></summary>
internal sealed record AllowDaysNode(TextSpan Span, ImmutableArray<DayNode> Days) : StatementNode(Span);

/// <summary><c>allow between 20:00 and 09:00</c></summary>
internal sealed record AllowHoursNode(TextSpan Span, MomentNode From, MomentNode To) : StatementNode(Span);

/// <summary><c>at most 3 days a week</c>, <c>at most 15 min a day per zone</c>, <c>at most 1 zone at a time</c>: the row after <c>at most</c>.</summary>
internal sealed record AtMostNode(TextSpan Span, RowNode Value) : StatementNode(Span);

/// <summary><c>exempt vines</c>, <c>exempt lawn from sown for 30 days</c>, <c>exempt lawn from D to D</c>.</summary>
internal sealed record ExemptNode(TextSpan Span, ZoneListNode Zones, DateNode? From, DateNode? To, RowNode? For) : StatementNode(Span);

/// <summary><c>week starts sun</c></summary>
internal sealed record WeekStartsNode(TextSpan Span, NameNode Weekday) : StatementNode(Span);
