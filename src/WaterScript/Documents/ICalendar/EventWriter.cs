using System.Globalization;
using System.Text;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.ICalendar;

/// <summary>Writes events (VEVENT). What events of one content have in common is put into lines once, with blanks that each event fills in.</summary>
internal sealed class EventWriter
{
    private const string BeforeUid = "BEGIN:VEVENT\r\nUID:";
    private const string BeforeStart = "DTSTART:";
    private const string BeforeEnd = "\r\nDTEND:";

    /// <summary>Seconds by which a clock change may move the clock, and more.</summary>
    private const int LargestChange = 7_200;

    /// <summary>Days in which a rule of days, weeks or months comes round.</summary>
    private const int LongestWait = 366;

    private readonly Timetable _timetable;
    private readonly ZoneClock _clock;
    private readonly ContentLines _lines;
    private readonly string _zone;
    private readonly byte[] _head;
    private readonly byte[] _blank;
    private readonly List<(byte[] Single, byte[] Tail)?> _texts = [];
    private readonly Dictionary<OccasionKey, EventUid> _uids = [];
    private Schedule _schedule;
    private Occasions _occasions;

    public EventWriter(Timetable timetable, CalendarOptions options, ZoneClock clock, ContentLines lines)
    {
        _timetable = timetable;
        _clock = clock;
        _lines = lines;
        _zone = timetable.Site.TimeZone.Id;
        _schedule = null!;
        _occasions = null!;
        var sequence = options.Sequence is { } number ? string.Create(CultureInfo.InvariantCulture, $"SEQUENCE:{number}\r\n") : "";
        _head = Encoding.ASCII.GetBytes($"{BeforeUid}{Blank(EventUid.Length)}\r\nDTSTAMP:{CalendarTime.Utc(options.Stamp.ToUnixTimeSeconds())}\r\n{sequence}");
        _blank = [.. _head, .. Encoding.ASCII.GetBytes($"{BeforeStart}{Blank(CalendarTime.UtcLength)}{BeforeEnd}{Blank(CalendarTime.UtcLength)}\r\n")];
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
        var times = Head(TextsOf(occasion.Content).Single, occasion.Key, occasion.Day)[(_head.Length + BeforeStart.Length)..];
        CalendarTime.Utc(occasion.Start, times);
        CalendarTime.Utc(occasion.End, times[(CalendarTime.UtcLength + BeforeEnd.Length)..]);
    }

    /// <summary>A series of events, by the clock of the site.</summary>
    public void Series(EventSeries series)
    {
        var (form, (rule, first, last, except)) = (series.Form, GuardEnd(series));
        var start = WallOf(first, form);
        Head(_head, form.Key, series.Mark);
        _lines.Line($"DTSTART;TZID={_zone}:{CalendarTime.Local(start)}");
        _lines.Line($"DTEND;TZID={_zone}:{CalendarTime.Local(start + form.Seconds)}");
        _lines.Line($"RRULE:{rule.Text()}{(last is { } day ? $";UNTIL={CalendarTime.Utc(EndOf(day, form))}" : "")}");
        if (!except.IsEmpty) _lines.Line($"EXDATE;TZID={_zone}:{string.Join(',', except.Select(taken => CalendarTime.Local(WallOf(taken, form))))}");
        _lines.Lines(TextsOf(form.Content).Tail);
    }

    private static string Blank(int length) => new(' ', length);

    private static long WallOf(int day, EventForm form) => ((long)day * ZoneClock.SecondsInDay) + form.SecondOfDay;

    /// <summary>
    /// Some readers compare the end of a series with its last event with the offset of the first, and lose one late in the day after a
    /// clock change. Such a series goes on to its next day, which is then taken out.
    /// </summary>
    private Series GuardEnd(EventSeries events)
    {
        var (form, series) = (events.Form, events.Series);
        if (series.Last is not { } last || form.SecondOfDay < ZoneClock.SecondsInDay - LargestChange || OffsetOn(series.First, form) == OffsetOn(last, form))
            return series;
        var next = last + 1;
        while (next < last + LongestWait && !series.Rule.Contains(next, series.First)) next++;
        return next == last + LongestWait || form.IsTouchedOn(next, _clock) ? series : series with { Last = next, Except = series.Except.Add(next) };
    }

    private int OffsetOn(int day, EventForm form) => _clock.OffsetAt(_clock.Read(day, form.SecondOfDay).Instant);

    /// <summary>
    /// The end of a local date; never the start of an event itself, because some readers lose that one. Where the clock skips the
    /// midnight that follows, a reader may take it for the hour before and find one more event; there half a day is enough.
    /// </summary>
    private long EndOf(int day, EventForm form)
    {
        const int LastSecond = ZoneClock.SecondsInDay - 1;
        var end = _clock.Read(day, LastSecond).Instant;
        if (_clock.At(_clock.StartOfDay(day + 1)).SecondOfDay != 0)
            end = Math.Min(end, _clock.Read(day, form.SecondOfDay).Instant + (ZoneClock.SecondsInDay / 2));
        return form.SecondOfDay == LastSecond ? end + 1 : end;
    }

    /// <summary>Begins an event with lines that leave its name open.</summary>
    private Span<byte> Head(ReadOnlySpan<byte> lines, OccasionKey key, int? day)
    {
        if (!_uids.TryGetValue(key, out var uid)) _uids[key] = uid = new EventUid(NameOf(key));
        var written = _lines.Lines(lines);
        uid.Write(day, written[BeforeUid.Length..]);
        return written;
    }

    /// <summary>
    /// What an event is, in names of the source: <c>garden/morning/1/2</c>, <c>garden/morning/1/2/3#1.2</c> or <c>garden/morning</c>; a pass that
    /// was asked for alone goes by its time, <c>garden/by-hand/T093000/1</c>.
    /// </summary>
    private string NameOf(OccasionKey key)
    {
        var name = $"{_timetable.Site.Name}/{_schedule.Name}";
        if (_occasions.Unit == EventUnit.Day) return name;
        name = string.Create(CultureInfo.InvariantCulture, $"{name}/{(_timetable.OnePass is { } pass ? TimeOf(pass) : key.StartNumber)}/{key.Pass}");
        return key.Step < 0 ? name : $"{name}/{_timetable.StepPath(new Run { Schedule = _schedule.Index, Step = key.Step })}";
    }

    private string TimeOf(Pass pass) => CalendarTime.Local(_clock.At(pass.Start).SecondOfDay)[CalendarTime.DateLength..];

    private (byte[] Single, byte[] Tail) TextsOf(int content)
    {
        while (_texts.Count <= content) _texts.Add(null);
        if (_texts[content] is { } known) return known;
        var tail = Tail(_occasions.Contents[content]);
        (byte[], byte[]) texts = ([.. _blank, .. tail], tail);
        _texts[content] = texts;
        return texts;
    }

    private byte[] Tail(EventContent content)
    {
        var lines = new ContentLines();
        lines.Text("SUMMARY", _schedule.Label ?? _schedule.Name);
        lines.Text("DESCRIPTION", content.Description);
        lines.Text("LOCATION", _timetable.Site.Label ?? _timetable.Site.Name);
        lines.Texts("CATEGORIES", content.Zones);
        lines.Line("TRANSP:TRANSPARENT");
        lines.Line("END:VEVENT");
        return lines.Written.ToArray();
    }
}
