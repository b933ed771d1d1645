using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>An item of a list of days.</summary>
internal abstract record DayNode(TextSpan Span) : Node(Span);

/// <summary><c>mon</c>, or <c>wed to fri</c>. The words are as written and may be no weekday: <c>Monday</c>.</summary>
internal sealed record WeekdayNode(TextSpan Span, NameNode First, NameNode? Last) : DayNode(Span);

/// <summary><c>odd days</c> or <c>even days</c>.</summary>
internal sealed record OddEvenNode(TextSpan Span, bool IsOdd) : DayNode(Span);

/// <summary><c>days 1, 15 of month</c>.</summary>
internal sealed record MonthDaysNode(TextSpan Span, ImmutableArray<NumberNode> Days) : DayNode(Span);

/// <summary><c>last day of month</c>.</summary>
internal sealed record LastDayNode(TextSpan Span) : DayNode(Span);

/// <summary><c>first mon of month</c>.</summary>
/// <param name="Span">All of it.</param>
/// <param name="Nth">1 to 4, or -1 for the last.</param>
/// <param name="Weekday">As written.</param>
internal sealed record NthWeekdayNode(TextSpan Span, int Nth, NameNode Weekday) : DayNode(Span);

/// <summary>A date, or a range of dates, both ends included.</summary>
internal sealed record DateRangeNode(TextSpan Span, DateNode First, DateNode? Last) : DayNode(Span);

/// <summary><c>every day</c>, <c>every 5 days</c>, <c>every 2 weeks on tue, thu</c>.</summary>
/// <param name="Span">All of it.</param>
/// <param name="Count">Null where no number is written.</param>
/// <param name="IsWeeks">Whether it counts weeks; otherwise days.</param>
/// <param name="On">The days after <c>on</c>; empty without it.</param>
internal sealed record IntervalNode(TextSpan Span, NumberNode? Count, bool IsWeeks, ImmutableArray<DayNode> On) : DayNode(Span)
{
    /// <summary>The date that it counts from, where that is written behind it.</summary>
    public DateNode? From { get; init; }
}
