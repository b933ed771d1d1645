using System.Globalization;
using System.Text;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.ICalendar;

/// <summary>Writes events (VEVENT). What events of one content have in common is put into lines once.</summary>
internal sealed class EventWriter
{
    /// <summary>The most that office calendars count events to ([MS-OXCICAL], 2.1.3.2.2: three digits).</summary>
    private const int MostCounted = 999;

    /// <summary>Texts that are kept, because events after them may say the same.</summary>
    private const int MostTexts = 256;

    private const string BeforeUid = "BEGIN:VEVENT\r\nUID:";
    private const string BeforeStart = "DTSTART:";
    private const string BeforeEnd = "\r\nDTEND:";

    private readonly Timetable _timetable;
    private readonly CalendarOptions _options;
    private readonly ZoneClock _clock;
    private readonly ContentLines _lines;
    private readonly ContentLines _said = new();
    private readonly EventTitle _title;
    private readonly string _stamp;
    private readonly string _zone;
    private readonly byte[] _head;
    private readonly byte[] _times;
    private readonly Dictionary<(int Content, int SecondOfDay), byte[]> _texts = [];
    private readonly Dictionary<OccasionKey, EventUid> _uids = [];
    private Schedule _schedule;
    private Occasions _occasions;

    public EventWriter(Timetable timetable, CalendarOptions options, ZoneClock clock, ContentLines lines)
    {
        _timetable = timetable;
        _options = options;
        _clock = clock;
        _lines = lines;
        _title = new EventTitle(timetable.Site, options.Title);
        _zone = timetable.Site.TimeZone.Id;
        _schedule = null!;
        _occasions = null!;
        _stamp = CalendarTime.Utc(options.Stamp.ToUnixTimeSeconds());
        _head = Encoding.ASCII.GetBytes($"{BeforeUid}{Blank(EventUid.Length)}\r\nDTSTAMP:{_stamp}\r\n");
        _times = Encoding.ASCII.GetBytes($"{BeforeStart}{Blank(CalendarTime.UtcLength)}{BeforeEnd}{Blank(CalendarTime.UtcLength)}\r\n");
    }

    /// <summary>Goes on to the events of a schedule.</summary>
    public void Begin(Schedule schedule, Occasions occasions)
    {
        _schedule = schedule;
        _occasions = occasions;
        _texts.Clear();
        _uids.Clear();
    }

    /// <summary>An event that stands alone, in UTC.</summary>
    public void Single(in Occasion occasion)
    {
        var times = _said.Lines(_times)[BeforeStart.Length..];
        CalendarTime.Utc(occasion.Start, times);
        CalendarTime.Utc(occasion.End, times[(CalendarTime.UtcLength + BeforeEnd.Length)..]);
        _said.Lines(TextsOf(occasion));
        End(UidOf(occasion.Key), occasion.Day);
    }

    /// <summary>A series of events, by the clock of the site.</summary>
    public void Series(EventSeries series)
    {
        var (form, (rule, first, _, except)) = (series.Form, series.Series);
        var start = WallOf(first, form);
        _said.Line($"DTSTART;TZID={_zone}:{CalendarTime.Local(start)}");
        _said.Line($"DTEND;TZID={_zone}:{CalendarTime.Local(start + form.Seconds)}");
        _said.Line($"RRULE:{rule.Text(EndOf(series), _options.IsSimple)}");
        if (!except.IsEmpty) _said.Line($"EXDATE;TZID={_zone}:{string.Join(',', except.Select(taken => CalendarTime.Local(WallOf(taken, form))))}");
        _said.Lines(TextsOf(form.Content, form.SecondOfDay));
        End(UidOf(form.Key), series.Mark);
    }

    /// <summary>An event on a whole date that says that the calendar ends.</summary>
    /// <param name="day">The date.</param>
    /// <param name="title">What it says.</param>
    /// <param name="description">What goes on.</param>
    public void EndNotice(int day, string title, string description)
    {
        _said.Line($"DTSTART;VALUE=DATE:{DateOf(day)}");
        _said.Line($"DTEND;VALUE=DATE:{DateOf(day + 1)}");
        _said.Text("SUMMARY", title);
        _said.Text("DESCRIPTION", description);
        _said.Text("LOCATION", PlaceName);
        _said.Line("TRANSP:TRANSPARENT");
        End(new EventUid($"{_timetable.Site.Name}//end"), day: null);
    }

    private string PlaceName => EventContent.NameOf(_timetable.Site.Label, _timetable.Site.Name);

    private static string Blank(int length) => new(' ', length);

    private static string DateOf(int day) => CalendarTime.Local((long)day * ZoneClock.SecondsInDay)[..CalendarTime.DateLength];

    private static long WallOf(int day, EventForm form) => ((long)day * ZoneClock.SecondsInDay) + form.SecondOfDay;

    /// <summary>
    /// How a series ends: with the start of its last event. Some readers compare that with the offset of the first event, and lose the last one
    /// where the clock is ahead of that by then; others step a yearly rule from the first event by whole years, and leave out a last year that ends before
    /// its date. There the number of events says it.
    /// </summary>
    private string? EndOf(EventSeries events)
    {
        var (form, series) = (events.Form, events.Series);
        if (series.Last is not { } last) return null;
        var end = _clock.Read(last, form.SecondOfDay).Instant;
        var ahead = OffsetOn(last, form) - OffsetOn(series.First, form);
        var count = ahead > 0 || EndsBeforeItsDate(series)
            ? Enumerable.Range(series.First, last - series.First + 1).Count(day => series.Rule.Contains(day, series.First))
            : 0;
        if (count == 0) return $"UNTIL={CalendarTime.Utc(end)}";

        // No event starts within the hours that the clock is ahead, so that the end may lie after them.
        return count > MostCounted && _options.IsSimple
            ? $"UNTIL={CalendarTime.Utc(end + ahead)}"
            : string.Create(CultureInfo.InvariantCulture, $"COUNT={count}");
    }

    /// <summary>Whether a yearly series ends in a later year, before the date on which it began.</summary>
    private static bool EndsBeforeItsDate(Series series) => series.Rule.Frequency == RuleFrequency.Yearly && series.Last is { } last
        && (CivilDate.FromDayNumber(series.First), CivilDate.FromDayNumber(last)) is var (first, end)
        && end.Year > first.Year && (end.Month, end.Day).CompareTo((first.Month, first.Day)) < 0;

    private int OffsetOn(int day, EventForm form) => _clock.OffsetAt(_clock.Read(day, form.SecondOfDay).Instant);

    /// <summary>Writes the event that was said, under its name and with its revision.</summary>
    private void End(EventUid uid, int? day)
    {
        var name = _lines.Lines(_head).Slice(BeforeUid.Length, EventUid.Length);
        uid.Write(day, name);
        var revision = _options switch
        {
            { Sequence: { } sequence } => new EventRevision(sequence, _stamp),
            { Earlier: { } earlier } => earlier.Of(Encoding.ASCII.GetString(name), Encoding.UTF8.GetString(_said.Written), _stamp),
            _ => new EventRevision(0, _stamp),
        };
        _lines.Lines(Encoding.ASCII.GetBytes(revision.Lines));
        _lines.Lines(_said.Written);
        _lines.Line("END:VEVENT");
        _said.Clear();
    }

    private EventUid UidOf(OccasionKey key)
    {
        if (!_uids.TryGetValue(key, out var uid)) _uids[key] = uid = new EventUid(NameOf(key));
        return uid;
    }

    /// <summary>
    /// What an event is, in names of the source: <c>garden/morning/1/2</c>, <c>garden/morning/1/2/3#1.2</c> or <c>garden/morning</c>; a pass that
    /// was asked for alone goes by its time, <c>garden/by-hand/T093000/1</c>. A schedule that was called otherwise keeps the name of its events.
    /// </summary>
    private string NameOf(OccasionKey key)
    {
        var name = $"{_timetable.Site.Name}/{_schedule.Formerly ?? _schedule.Name}";
        if (_occasions.Unit == EventUnit.Day) return name;
        name = string.Create(CultureInfo.InvariantCulture, $"{name}/{(_timetable.OnePass is { } pass ? TimeOf(pass) : key.StartNumber)}/{key.Pass}");
        return key.Step < 0 ? name : $"{name}/{_timetable.StepPath(new Run { Schedule = _schedule.Index, Step = key.Step })}";
    }

    private string TimeOf(Pass pass) => CalendarTime.Local(_clock.At(pass.Start).SecondOfDay)[CalendarTime.DateLength..];

    /// <summary>The texts of an event that stands alone; where the clocks change meanwhile, they are its own.</summary>
    private byte[] TextsOf(in Occasion occasion)
    {
        var (start, end) = (occasion.Start, occasion.End);
        return _clock.OffsetAt(start) == _clock.OffsetAt(end)
            ? TextsOf(occasion.Content, _clock.At(start).SecondOfDay)
            : Texts(_occasions.Contents[occasion.Content], offset => ClockOf(_clock.At(start + offset).SecondOfDay));
    }

    private byte[] TextsOf(int content, int secondOfDay)
    {
        if (_texts.TryGetValue((content, secondOfDay), out var texts)) return texts;
        if (_texts.Count == MostTexts) _texts.Clear();
        return _texts[(content, secondOfDay)] = Texts(_occasions.Contents[content], offset => ClockOf((secondOfDay + offset) % ZoneClock.SecondsInDay));
    }

    private static string ClockOf(long secondOfDay) => string.Create(CultureInfo.InvariantCulture, $"{secondOfDay / 3_600:00}:{secondOfDay / 60 % 60:00}");

    private byte[] Texts(EventContent content, Func<long, string> clock)
    {
        var lines = new ContentLines();
        var title = _title.Of(_schedule, content);
        lines.Text("SUMMARY", title);
        lines.Text("DESCRIPTION", content.Description(clock));
        lines.Text("LOCATION", PlaceName);
        lines.Texts("CATEGORIES", content.Zones);
        lines.Line("TRANSP:TRANSPARENT");
        if (_options.AlarmSeconds is { } ahead) WriteAlarm(ahead, title, lines);
        return lines.Written.ToArray();
    }

    private static void WriteAlarm(long seconds, string title, ContentLines lines)
    {
        lines.Line("BEGIN:VALARM");
        lines.Line("ACTION:DISPLAY");
        lines.Text("DESCRIPTION", title);
        lines.Line(string.Create(CultureInfo.InvariantCulture, $"TRIGGER:{(seconds == 0 ? "" : "-")}PT{seconds / 60}M"));
        lines.Line("END:VALARM");
    }
}
