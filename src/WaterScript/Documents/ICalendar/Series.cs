using System.Collections.Immutable;

namespace WaterScript.Documents.ICalendar;

/// <summary>Events that one rule says: each at the same time of the clock, equally long, on the rule's days but for some.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="First">Its anchor, the local date on which the first event starts.</param>
/// <param name="Last">The local date on which the last one starts; null when there is none.</param>
/// <param name="Except">Days of the rule, within those, without an event.</param>
internal sealed record Series(RecurrenceRule Rule, int First, int? Last, ImmutableArray<int> Except);
