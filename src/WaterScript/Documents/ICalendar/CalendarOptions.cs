using NodaTime;
using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>What one event of a calendar shows.</summary>
internal enum EventUnit
{
    /// <summary>A pass: its first moment to the end of its last run.</summary>
    Pass,

    /// <summary>A step of a pass.</summary>
    Step,

    /// <summary>All passes of a schedule that belong to one date.</summary>
    Day,
}

/// <summary>How a timetable becomes a calendar.</summary>
/// <param name="Stamp">When the file counts as made (DTSTAMP); it does not come from the clock.</param>
internal sealed record CalendarOptions(Instant Stamp)
{
    /// <summary>
    /// What an event shows; null for passes, and days for schedules that by what they say have more than <see cref="MostPassesShown"/> passes a
    /// date, the sun being up from six to six.
    /// </summary>
    public EventUnit? Unit { get; init; }

    /// <summary>Passes of a date that are shown one by one when <see cref="Unit"/> does not say.</summary>
    public const int MostPassesShown = 12;

    /// <summary>Whether every event stands alone, in UTC, without rules.</summary>
    public bool IsFlat { get; init; }

    /// <summary>Whether rules are only those that office calendars map ([MS-OXCICAL], 2.1.3.2.2), each with an end.</summary>
    public bool IsSimple { get; init; }

    /// <summary>Whether a series that no clock change can ever touch goes on after the horizon.</summary>
    public bool IsOpenEnded { get; init; }

    /// <summary>Revision of all events (SEQUENCE), 0 or more; null to go by <see cref="Earlier"/>.</summary>
    public int? Sequence { get; init; }

    /// <summary>The events of the file sent before; null where there is none.</summary>
    public EarlierEvents? Earlier { get; init; }

    /// <summary>The template of titles.</summary>
    public string Title { get; init; } = EventTitle.Default;

    /// <summary>How long before an event an alarm is shown, in seconds, 0 or more; null for no alarm.</summary>
    public long? AlarmSeconds { get; init; }

    /// <summary>Whether an all-day event shows where a calendar with an end ends.</summary>
    public bool HasEndNotice { get; init; } = true;

    /// <summary>Only what this controller waters; null for all.</summary>
    public Controller? Controller { get; init; }
}
