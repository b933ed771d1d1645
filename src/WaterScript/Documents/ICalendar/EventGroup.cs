using System.Collections.Immutable;
using WaterScript.Calendars;

namespace WaterScript.Documents.ICalendar;

/// <summary>What events of one series have in common.</summary>
/// <param name="Key">What they show.</param>
/// <param name="SecondOfDay">When they start on the clock.</param>
/// <param name="Seconds">How long they last.</param>
/// <param name="Shift">Days from the date that one belongs to, to the local date on which it starts.</param>
/// <param name="Content">Index of what they say.</param>
/// <param name="IsWhole">Whether nothing is taken of them.</param>
internal readonly record struct EventForm(OccasionKey Key, int SecondOfDay, long Seconds, int Shift, int Content, bool IsWhole)
{
    /// <summary>When they start on the clock, in seconds from the midnight that begins their date.</summary>
    public long FromMidnight => ((long)Shift * ZoneClock.SecondsInDay) + SecondOfDay;

    /// <summary>The form of an occasion; null where a clock change touches it, so that no rule can say it.</summary>
    public static EventForm? Of(in Occasion occasion, ZoneClock clock)
    {
        var start = clock.At(occasion.Start);
        var form = new EventForm(occasion.Key, start.SecondOfDay, occasion.End - occasion.Start, start.Day - occasion.Day, occasion.Content, occasion.IsWhole);
        return form.IsTouchedOn(start.Day, clock) || clock.Read(start.Day, start.SecondOfDay).Instant != occasion.Start ? null : form;
    }

    /// <summary>Whether a clock change skips or repeats the time of their start on a local date.</summary>
    public bool IsSkippedOn(int day, ZoneClock clock) => clock.Read(day, SecondOfDay).Note != MomentNote.None;

    /// <summary>Whether a clock change would touch an event that starts on a local date: skip or double its start or end, or fall in between.</summary>
    public bool IsTouchedOn(int day, ZoneClock clock)
    {
        var start = clock.Read(day, SecondOfDay);
        var wallEnd = SecondOfDay + Seconds;
        var end = clock.Read(day + (int)(wallEnd / ZoneClock.SecondsInDay), (int)(wallEnd % ZoneClock.SecondsInDay));
        return start.Note != MomentNote.None || end.Note != MomentNote.None || end.Instant - start.Instant != Seconds;
    }
}

/// <summary>A series of events.</summary>
/// <param name="Form">What they have in common.</param>
/// <param name="Series">On which days.</param>
/// <param name="Mark">The date of its first event, which distinguishes it from other series of the same passes; null for the first of them.</param>
internal sealed record EventSeries(EventForm Form, Series Series, int? Mark);

/// <summary>The events of one schedule.</summary>
/// <param name="Occasions">What they show.</param>
/// <param name="Series">Those that rules say.</param>
/// <param name="Singles">Those that stand alone; they may be worked out anew each time.</param>
/// <param name="IsCut">Whether the schedule goes on after what is shown.</param>
internal sealed record ScheduleEvents(Occasions Occasions, ImmutableArray<EventSeries> Series, IEnumerable<Occasion> Singles, bool IsCut);
