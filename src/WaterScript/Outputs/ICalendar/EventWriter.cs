using System.Globalization;
using System.Text;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>Writes events (VEVENT). What events of one content have in common is put into lines once.</summary>
internal sealed class EventWriter : IDisposable
{
    private const int LongestOnStack = 256;
    private const int DateLength = 8;

    /// <summary>Seconds by which a clock change may move the clock, and more.</summary>
    private const int LargestChange = 7_200;

    /// <summary>Days in which a rule of days, weeks or months comes round.</summary>
    private const int LongestWait = 366;

    private readonly Timetable _timetable;
    private readonly ZoneClock _clock;
    private readonly ContentLines _lines;
    private readonly EventUid _uid = new();
    private readonly string _zone;
    private readonly byte[] _stamp;
    private readonly List<byte[]?> _tails = [];
    private readonly Dictionary<OccasionKey, byte[]> _names = [];
    private readonly byte[] _time = new byte[CalendarTime.UtcLength];
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
        _stamp = Encoding.ASCII.GetBytes($"\r\nDTSTAMP:{CalendarTime.Utc(options.Stamp.ToUnixTimeSeconds())}\r\n{sequence}");
    }

    /// <inheritdoc/>
    public void Dispose() => _uid.Dispose();

    /// <summary>Goes on to the events of a schedule.</summary>
    public void Begin(Schedule schedule, Occasions occasions)
    {
        _schedule = schedule;
        _occasions = occasions;
        _tails.Clear();
        _names.Clear();
    }

    /// <summary>An event that stands alone, in UTC.</summary>
    public void Single(in Occasion occasion)
    {
        Head(occasion.Key, occasion.Day);
        Utc("DTSTART:"u8, occasion.Start);
        Utc("DTEND:"u8, occasion.End);
        _lines.Raw(TailOf(occasion.Content));
    }

    /// <summary>A series of events, by the clock of the site.</summary>
    public void Series(EventSeries series)
    {
        var (form, (rule, first, last, except)) = (series.Form, GuardEnd(series));
        var start = WallOf(first, form);
        Head(form.Key, series.Mark);
        _lines.Line($"DTSTART;TZID={_zone}:{CalendarTime.Local(start)}");
        _lines.Line($"DTEND;TZID={_zone}:{CalendarTime.Local(start + form.Seconds)}");
        _lines.Line($"RRULE:{rule.Text()}{(last is { } day ? $";UNTIL={CalendarTime.Utc(EndOf(day, form))}" : "")}");
        if (!except.IsEmpty) _lines.Line($"EXDATE;TZID={_zone}:{string.Join(',', except.Select(taken => CalendarTime.Local(WallOf(taken, form))))}");
        _lines.Raw(TailOf(form.Content));
    }

    private static long WallOf(int day, EventForm form) => ((long)day * ZoneClock.SecondsInDay) + form.SecondOfDay;

    /// <summary>
    /// Some readers hold the end of a series against its last event with the offset of the first, and lose one late in the day after a
    /// clock change. Such a series goes on to its next day, which is then taken out.
    /// </summary>
    private Series GuardEnd(EventSeries events)
    {
        var (form, series) = (events.Form, events.Series);
        if (series.Last is not { } last || form.SecondOfDay < ZoneClock.SecondsInDay - LargestChange || OffsetOn(series.First, form) == OffsetOn(last, form)) return series;
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
        if (_clock.At(_clock.StartOfDay(day + 1)).SecondOfDay != 0) end = Math.Min(end, _clock.Read(day, form.SecondOfDay).Instant + (ZoneClock.SecondsInDay / 2));
        return form.SecondOfDay == LastSecond ? end + 1 : end;
    }

    private void Head(OccasionKey key, int? date)
    {
        if (!_names.TryGetValue(key, out var bare)) _names[key] = bare = Encoding.ASCII.GetBytes(NameOf(key));
        var longest = bare.Length + 1 + DateLength;
        Span<byte> name = longest <= LongestOnStack ? stackalloc byte[LongestOnStack] : new byte[longest];
        bare.CopyTo(name);
        if (date is { } day)
        {
            CalendarTime.Utc((long)day * ZoneClock.SecondsInDay, _time);
            name[bare.Length] = (byte)'@';
            _time.AsSpan(0, DateLength).CopyTo(name[(bare.Length + 1)..]);
        }

        name = name[..(date is null ? bare.Length : longest)];

        _lines.Raw("BEGIN:VEVENT\r\nUID:"u8);
        _lines.Raw(_uid.Of(name));
        _lines.Raw(_stamp);
    }

    /// <summary>What an event is, in names of the source: <c>garden/morning/1/2</c>, <c>garden/morning/1/2/3#1.2</c> or <c>garden/morning</c>. One pass that was asked for has its time in it.</summary>
    private string NameOf(OccasionKey key)
    {
        var name = $"{_timetable.Site.Name}/{_schedule.Name}";
        if (_timetable.OnePassStart is { } instant) name = $"{name}/{CalendarTime.Utc(instant)}";
        if (_occasions.Unit == EventUnit.Day) return name;
        name = string.Create(CultureInfo.InvariantCulture, $"{name}/{key.StartNumber}/{key.Pass}");
        return key.Step < 0 ? name : $"{name}/{_timetable.StepPath(new Run { Schedule = _schedule.Index, Step = key.Step })}";
    }

    private void Utc(ReadOnlySpan<byte> property, long instant)
    {
        CalendarTime.Utc(instant, _time);
        _lines.Raw(property);
        _lines.Raw(_time);
        _lines.Raw("\r\n"u8);
    }

    private byte[] TailOf(int content)
    {
        while (_tails.Count <= content) _tails.Add(null);
        return _tails[content] ??= Tail(_occasions.Contents[content]);
    }

    private byte[] Tail(EventContent content)
    {
        var lines = new ContentLines();
        lines.Text("SUMMARY", _schedule.DisplayName);
        lines.Text("DESCRIPTION", content.Description);
        lines.Text("LOCATION", _timetable.Site.DisplayName);
        lines.Texts("CATEGORIES", content.Zones);
        lines.Line("TRANSP:TRANSPARENT");
        lines.Line("END:VEVENT");
        return lines.Written.ToArray();
    }
}
