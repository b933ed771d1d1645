using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// A timetable as an iCalendar file (RFC 5545), kept to the part of it that independent readers expand alike: they give exactly the
/// passes of the timetable. The same timetable and options give the same bytes everywhere.
/// </summary>
internal sealed class CalendarFile
{
    private const int FlushAt = 1 << 16;

    /// <summary>What a calendar with an end says, in itself, where it ends.</summary>
    public const string EndNotice = "Watering calendar ends here: export it again";

    /// <summary>How often an app looks for a new file, where it goes by that: what is planned changes by day, not by hour.</summary>
    private const string Refresh = "P1D";

    /// <summary>A name of CSS3, as RFC 7986 has it.</summary>
    private const string Colour = "steelblue";

    private readonly Timetable _timetable;
    private readonly CalendarOptions _options;
    private readonly CalendarZone _zone;
    private readonly ZoneClock _clock;
    private readonly ImmutableArray<ScheduleEvents> _events;
    private long? _singleEvents;

    private CalendarFile(Timetable timetable, CalendarOptions options)
    {
        _timetable = timetable;
        _options = options;
        _clock = new ZoneClock(timetable.Site.TimeZone);
        var (from, until) = (CivilDate.DayNumberOf(timetable.Horizon.From), CivilDate.DayNumberOf(timetable.Horizon.Until));
        _zone = CalendarZone.Of(timetable.Site.TimeZone, _clock.StartOfDay(from), _clock.StartOfDay(until));
        _events = options.IsFlat ? [.. Schedules().Select(FlatEventsOf)] : [.. Schedules().Select(PlannerFrom(from).EventsOf)];
        Series = _events.Sum(events => events.Series.Length);
        Cut = [.. Schedules().Zip(_events).Where(pair => pair.Second.IsCut).Select(pair => pair.First)];
    }

    /// <summary>Number of series: events with a rule.</summary>
    public int Series { get; }

    /// <summary>Number of events that stand alone. Of a large flat file it is known at once when it has been written, else counted by expanding it.</summary>
    public long SingleEvents => _singleEvents ??= Singles.LongCount();

    /// <summary>Whether there is nothing to show. Such a file would not be a calendar: one holds at least one component (RFC 5545, 3.6).</summary>
    public bool IsEmpty => Series == 0 && !Singles.Any();

    /// <summary>Whether it has more than <see cref="Limits.FlatEvents"/> events that stand alone.</summary>
    public bool IsOverLimit => Singles.Skip(Limits.FlatEvents).Any();

    /// <summary>The schedules that go on after the horizon without the file saying so, in order of the site.</summary>
    public ImmutableArray<Schedule> Cut { get; }

    /// <summary>Whether there is one.</summary>
    public bool IsCut => !Cut.IsEmpty;

    /// <summary>Whether all are.</summary>
    public bool IsAllCut => Cut.Length == _events.Length;

    private IEnumerable<Occasion> Singles => _events.SelectMany(events => events.Singles);

    /// <summary>Works out the events of a timetable.</summary>
    public static CalendarFile Of(Timetable timetable, CalendarOptions options)
    {
        ArgumentNullException.ThrowIfNull(timetable);
        ArgumentNullException.ThrowIfNull(options);
        return new CalendarFile(timetable, options);
    }

    /// <summary>Writes the file, in UTF-8.</summary>
    /// <param name="output">Where to; it is left open.</param>
    /// <exception cref="InvalidOperationException">It is empty.</exception>
    /// <exception cref="IOException">The output cannot be written.</exception>
    public void Write(Stream output)
    {
        ArgumentNullException.ThrowIfNull(output);
        if (IsEmpty) throw new InvalidOperationException("A calendar holds at least one event.");
        var lines = new ContentLines();
        WriteHead(lines);
        WriteEvents(lines, output);
        lines.Line("END:VCALENDAR");
        output.Write(lines.Written);
    }

    private void WriteHead(ContentLines lines)
    {
        lines.Line("BEGIN:VCALENDAR");
        lines.Line("VERSION:2.0");
        lines.Line("PRODID:-//WaterScript//WaterScript//EN");
        lines.Line("CALSCALE:GREGORIAN");
        var name = EventContent.NameOf(_timetable.Site.Label, _timetable.Site.Name);
        lines.Text("NAME", name);
        lines.Text("X-WR-CALNAME", name);
        if (HasEndNotice)
        {
            lines.Text("DESCRIPTION", $"{EndNotice}. {GoesOn()}");
            lines.Text("X-WR-CALDESC", $"{EndNotice}. {GoesOn()}");
        }

        lines.Line($"REFRESH-INTERVAL;VALUE=DURATION:{Refresh}");
        lines.Line($"X-PUBLISHED-TTL:{Refresh}");
        lines.Line($"COLOR:{Colour}");
        if (Series > 0) _zone.Write(lines);
    }

    private bool HasEndNotice => IsCut && _options.HasEndNotice;

    /// <summary>What goes on after the end, and when the end is.</summary>
    private string GoesOn()
    {
        var names = string.Join(", ", Cut.Select(schedule => EventContent.NameOf(schedule.Label, schedule.Name)));
        return $"Known to {MomentWords.Date(_timetable.Horizon.Until.PlusDays(-1))}; goes on after that: {names}.";
    }

    private void WriteEvents(ContentLines lines, Stream output)
    {
        var writer = new EventWriter(_timetable, _options, _clock, lines);
        long singles = 0;
        var lastDay = int.MinValue;
        foreach (var (schedule, events) in Schedules().Zip(_events))
        {
            writer.Begin(schedule, events.Occasions);
            foreach (var series in events.Series)
            {
                writer.Series(series);
                if (events.IsCut) lastDay = Math.Max(lastDay, LastDayOf(series));
                Flush(lines, output);
            }

            foreach (var single in events.Singles)
            {
                writer.Single(single);
                if (events.IsCut) lastDay = Math.Max(lastDay, _clock.At(single.End - 1).Day);
                Flush(lines, output);
                singles++;
            }
        }

        _singleEvents = singles;
        if (HasEndNotice) writer.EndNotice(lastDay == int.MinValue ? CivilDate.DayNumberOf(_timetable.Horizon.Until) : lastDay + 1, EndNotice, GoesOn());
    }

    /// <summary>The local date on which the last event of a series ends; none where it goes on.</summary>
    private static int LastDayOf(EventSeries series) => series.Series.Last is { } last
        ? last + (int)((series.Form.SecondOfDay + series.Form.Seconds - 1) / ZoneClock.SecondsInDay)
        : int.MinValue;

    private static void Flush(ContentLines lines, Stream output)
    {
        if (lines.Written.Length < FlushAt) return;
        output.Write(lines.Written);
        lines.Clear();
    }

    private IEnumerable<Schedule> Schedules() => _timetable.Site.Schedules.Where(schedule => !schedule.IsManual || _timetable.OnePass is not null);

    /// <summary>The events of a schedule, one by one: worked out once and kept, but for so many that only a stream of them is bearable.</summary>
    private ScheduleEvents FlatEventsOf(Schedule schedule)
    {
        var occasions = new Occasions(_timetable, schedule, _options, _clock);
        List<Occasion> first = [.. occasions.All().Take(Limits.FlatEvents + 1)];
        var goesOn = schedule.Starts.Any(start => EventPlanner.GoesOn(schedule, start, _timetable));
        return new ScheduleEvents(occasions, [], first.Count > Limits.FlatEvents ? occasions.All() : first, goesOn);
    }

    /// <summary>A planner that knows the site from its effective date on, whatever of it is shown.</summary>
    private EventPlanner PlannerFrom(int from)
    {
        var origin = Math.Max(Math.Min(from, CivilDate.DayNumberOf(_timetable.Site.Effective)), from - Limits.HorizonDays);
        var whole = _timetable.OnePass is not null
            ? _timetable
            : Timetable.Of(_timetable.Site, new Horizon(CivilDate.FromDayNumber(origin).ToLocalDate(), _timetable.Horizon.Until));
        return new EventPlanner(_timetable, whole, _zone, _options);
    }
}
