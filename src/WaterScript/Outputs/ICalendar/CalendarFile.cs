using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>
/// A timetable as an iCalendar file (RFC 5545), kept to the part of it that independent readers expand alike: they give exactly the
/// passes of the timetable. The same timetable and options give the same bytes everywhere.
/// </summary>
public sealed class CalendarFile
{
    private const int FlushAt = 1 << 15;

    private readonly Timetable _timetable;
    private readonly CalendarOptions _options;
    private readonly CalendarZone _zone;
    private readonly ZoneClock _clock;
    private readonly ImmutableArray<ScheduleEvents> _events;
    private readonly bool _isCounted = true;

    private CalendarFile(Timetable timetable, CalendarOptions options)
    {
        _timetable = timetable;
        _options = options;
        _clock = new ZoneClock(timetable.Site.TimeZone);
        var (from, until) = (CivilDate.DayNumberOf(timetable.Horizon.From), CivilDate.DayNumberOf(timetable.Horizon.Until));
        var origin = Math.Max(Math.Min(from, CivilDate.DayNumberOf(timetable.Site.Effective)), from - Limits.HorizonDays);
        _zone = CalendarZone.Of(timetable.Site.TimeZone, _clock.StartOfDay(from), _clock.StartOfDay(until));
        if (options.IsFlat)
        {
            _isCounted = !options.IsOfAnySize;
            if (_isCounted) SingleEvents = Schedules().Sum(schedule => OccasionsOf(schedule).All().LongCount());
            IsCut = Schedules().Any(schedule => schedule.Starts.Any(start => EventPlanner.GoesOn(schedule, start, timetable)));
            return;
        }

        var whole = timetable.IsOnePass ? timetable : Timetable.Of(timetable.Site, new Horizon(CivilDate.FromDayNumber(origin).ToLocalDate(), timetable.Horizon.Until));
        var planner = new EventPlanner(timetable, whole, _zone, options);
        _events = [.. Schedules().Select(planner.EventsOf)];
        SingleEvents = _events.Sum(events => (long)events.Singles.Length);
        Series = _events.Sum(events => events.Series.Length);
        IsCut = _events.Any(events => events.IsCut);
    }

    /// <summary>Number of series: events with a rule.</summary>
    public int Series { get; }

    /// <summary>Number of events that stand alone; of a flat file of any size, how many are written.</summary>
    public long SingleEvents { get; private set; }

    /// <summary>Whether there is nothing to show. Such a file would not be a calendar: one holds at least one component (RFC 5545, 3.6).</summary>
    public bool IsEmpty => _isCounted ? Series == 0 && SingleEvents == 0 : !Schedules().Any(schedule => OccasionsOf(schedule).All().Any());

    /// <summary>Whether it has more single events than calendar apps bear, and is not to be of any size.</summary>
    public bool IsTooLarge => !_options.IsOfAnySize && SingleEvents > Limits.FlatEvents;

    /// <summary>Whether some schedule goes on after the horizon, and the file does not say so.</summary>
    public bool IsCut { get; }

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
        using var writer = new EventWriter(_timetable, _options, _clock, lines);
        if (_options.IsFlat) WriteFlat(writer, lines, output);
        else WriteSeries(writer, lines, output);
        lines.Line("END:VCALENDAR");
        output.Write(lines.Written);
    }

    private void WriteHead(ContentLines lines)
    {
        lines.Line("BEGIN:VCALENDAR");
        lines.Line("VERSION:2.0");
        lines.Line("PRODID:-//WaterScript//WaterScript//EN");
        lines.Line("CALSCALE:GREGORIAN");
        lines.Text("NAME", _timetable.Site.DisplayName);
        lines.Text("X-WR-CALNAME", _timetable.Site.DisplayName);
        if (Series > 0) _zone.Write(lines);
    }

    private void WriteFlat(EventWriter writer, ContentLines lines, Stream output)
    {
        long count = 0;
        foreach (var schedule in Schedules())
        {
            var occasions = OccasionsOf(schedule);
            writer.Begin(schedule, occasions);
            foreach (var occasion in occasions.All())
            {
                writer.Single(occasion);
                Flush(lines, output);
                count++;
            }
        }

        SingleEvents = count;
    }

    private void WriteSeries(EventWriter writer, ContentLines lines, Stream output)
    {
        foreach (var (schedule, events) in Schedules().Zip(_events))
        {
            writer.Begin(schedule, events.Occasions);
            foreach (var series in events.Series)
            {
                writer.Series(series);
                Flush(lines, output);
            }

            foreach (var single in events.Singles)
            {
                writer.Single(single);
                Flush(lines, output);
            }
        }
    }

    private static void Flush(ContentLines lines, Stream output)
    {
        if (lines.Written.Length < FlushAt) return;
        output.Write(lines.Written);
        lines.Clear();
    }

    private IEnumerable<Schedule> Schedules() => _timetable.Site.Schedules.Where(schedule => !schedule.IsManual || _timetable.IsOnePass);

    private Occasions OccasionsOf(Schedule schedule) => new(_timetable, schedule, _options, _clock);
}
