using System.Text.RegularExpressions;
using NodaTime;

namespace WaterScript.Tests.Rfc5545;

/// <summary>
/// Reads a calendar as RFC 5545 has it, and refuses what a lenient reader lets pass. Within the RFC it takes only what all readers
/// read alike: one rule an event, no RDATE, no floating time, exceptions in the form of the start.
/// </summary>
internal sealed class StrictCalendar
{
    private static readonly string[] TextProperties =
        ["PRODID", "VERSION", "CALSCALE", "METHOD", "NAME", "X-WR-CALNAME", "DESCRIPTION", "UID", "SUMMARY", "LOCATION", "STATUS", "TRANSP", "CLASS", "COMMENT",
            "TZID", "TZNAME", "COLOR"];

    private readonly Dictionary<string, StrictZone> _zones = new(StringComparer.Ordinal);
    private readonly HashSet<string> _used = new(StringComparer.Ordinal);

    private StrictCalendar(Component calendar) => Calendar = calendar;

    public Component Calendar { get; }

    public IReadOnlyCollection<StrictZone> Zones => _zones.Values;

    public IEnumerable<Component> Events => Calendar.Parts.Where(part => part.Name == "VEVENT");

    public static StrictCalendar Read(byte[] file)
    {
        var calendar = new StrictCalendar(Component.Read(file));
        calendar.Check();
        return calendar;
    }

    private void Check()
    {
        if (Calendar.Name != "VCALENDAR") throw new Malformed(1, "is no calendar");
        if (Calendar.The("VERSION").Value != "2.0") throw new Malformed(Calendar.The("VERSION").Number, "is another version");
        if (Calendar.Parts.Count == 0) throw new Malformed(Calendar.Line, "holds nothing (3.6)");
        CheckProperties(Calendar);
        foreach (var zone in Calendar.Parts.Where(part => part.Name == "VTIMEZONE").Select(StrictZone.Of))
        {
            if (!_zones.TryAdd(zone.Name, zone)) throw new Malformed(zone.Line, $"the second VTIMEZONE called {zone.Name}");
        }

        foreach (var part in Calendar.Parts.Where(part => part.Name != "VTIMEZONE")) CheckEvent(part);
        if (_zones.Keys.Except(_used).FirstOrDefault() is { } unused) throw new Malformed(_zones[unused].Line, $"no event is in {unused}");
        if (Events.GroupBy(one => one.The("UID").Value).FirstOrDefault(group => group.Count() > 1) is { } twice) throw new Malformed(twice.ElementAt(1).Line,
            $"the second event called {twice.Key}");
    }

    private void CheckEvent(Component one)
    {
        if (one.Name != "VEVENT") throw new Malformed(one.Line, $"{one.Name} is no part of a timetable");
        CheckProperties(one);
        Values.Utc(one.The("DTSTAMP"));
        if (one.Find("LAST-MODIFIED") is { } modified) Values.Utc(modified);
        if (one.Find("SEQUENCE") is { } sequence && !int.TryParse(sequence.Value, out _)) throw new Malformed(sequence.Number, "SEQUENCE is not a number");
        if (one.Find("TRANSP") is { Value: not ("OPAQUE" or "TRANSPARENT") } transparency) throw new Malformed(transparency.Number, "TRANSP is neither");
        foreach (var alarm in one.Parts) CheckAlarm(alarm);
        if (one.The("DTSTART").Parameters.GetValueOrDefault("VALUE") == "DATE")
        {
            CheckDates(one);
            return;
        }

        var start = At(one.The("DTSTART"), one.The("DTSTART").Value);
        CheckLength(one, start.Instant);
        if (one.Find("RRULE") is { } line) CheckRule(RecurrenceRule.Of(line), one, line.Number, start);
        foreach (var exception in one.All("EXDATE")) CheckException(one, exception);
    }

    private void CheckLength(Component one, Instant start)
    {
        if (one.Find("DTEND") is null == one.Find("DURATION") is null) throw new Malformed(one.Line, "needs either DTEND or DURATION");
        if (one.Find("DURATION") is { } duration) Values.Duration(duration);
        if (one.Find("DTEND") is not { } end) return;
        if (end.Zone != one.The("DTSTART").Zone) throw new Malformed(end.Number, "is not in the zone of its start");
        if (At(end, end.Value).Instant <= start) throw new Malformed(end.Number, "is not after its start");
    }

    /// <summary>An event of whole dates, which here never comes again.</summary>
    private static void CheckDates(Component one)
    {
        var (start, end) = (Values.Date(one.The("DTSTART")), Values.Date(one.The("DTEND")));
        if (end <= start) throw new Malformed(one.The("DTEND").Number, "is not after its start");
        if (one.Find("RRULE") is { } rule) throw new Malformed(rule.Number, "a rule of whole dates");
    }

    private static void CheckAlarm(Component alarm)
    {
        if (alarm.Name != "VALARM") throw new Malformed(alarm.Line, $"{alarm.Name} is no part of an event");
        CheckProperties(alarm);
        if (alarm.The("ACTION").Value != "DISPLAY") throw new Malformed(alarm.The("ACTION").Number, "is another alarm than one that is shown");
        var trigger = alarm.The("TRIGGER");
        if (!Regex.IsMatch(trigger.Value, "^-?PT[0-9]+M$")) throw new Malformed(trigger.Number, "is no time before the start");
    }

    private static void CheckRule(RecurrenceRule rule, Component one, int line, (LocalDateTime Wall, Instant Instant) start)
    {
        if (!rule.Has(start.Wall.Date)) throw new Malformed(line, "the start is no instance of its rule");
        if (rule.Until is not { } until) return;
        var (wall, isUtc) = Values.Time(line, until);
        if (!isUtc) throw new Malformed(line, "UNTIL is not in UTC (3.3.10)");
        if (wall.InUtc().ToInstant() < start.Instant) throw new Malformed(line, "UNTIL comes before the start");
        if (one.The("DTSTART").Zone is null && !one.The("DTSTART").Value.EndsWith('Z')) throw new Malformed(line, "UNTIL in UTC with a floating start");
    }

    private void CheckException(Component one, ContentLine line)
    {
        if (one.Find("RRULE") is null) throw new Malformed(line.Number, "an exception without a rule");
        if (line.Zone != one.The("DTSTART").Zone) throw new Malformed(line.Number, "is not in the zone of its start");
        foreach (var value in line.Value.Split(',')) At(line, value);
    }

    /// <summary>A time in UTC, or in a zone of the file at a moment that its clocks show exactly once.</summary>
    private (LocalDateTime Wall, Instant Instant) At(ContentLine line, string value)
    {
        if (line.Parameters.Keys.Any(name => name != "TZID")) throw new Malformed(line.Number, "has a parameter other than TZID");
        var (wall, isUtc) = Values.Time(line.Number, value);
        if (isUtc) return line.Zone is null ? (wall, wall.InUtc().ToInstant()) : throw new Malformed(line.Number, "has both a zone and Z");
        if (line.Zone is null) throw new Malformed(line.Number, "is a floating time");
        if (!_zones.TryGetValue(line.Zone, out var zone)) throw new Malformed(line.Number, $"no VTIMEZONE is called {line.Zone}");
        _used.Add(line.Zone);
        return zone.Instants(wall) is [var only] ? (wall, only)
            : throw new Malformed(line.Number, $"{value} is skipped, shown twice, or before the first onset in {line.Zone}");
    }

    private static void CheckProperties(Component component)
    {
        Cardinality.Check(component);
        foreach (var line in component.Properties)
        {
            if (TextProperties.Contains(line.Name) && Values.Texts(line).Count != 1) throw new Malformed(line.Number, "has a bare comma in a text");
            if (line.Name == "CATEGORIES" && Values.Texts(line).Any(text => text.Length == 0)) throw new Malformed(line.Number, "has an empty category");
        }
    }
}
