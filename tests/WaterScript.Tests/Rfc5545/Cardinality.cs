namespace WaterScript.Tests.Rfc5545;

/// <summary>Which properties a component has to have, and may have once or more often (RFC 5545, 3.6; RFC 7986, 4). Any other is refused.</summary>
internal sealed class Cardinality(string required, string once, string repeated)
{
    private static readonly Dictionary<string, Cardinality> Components = new(StringComparer.Ordinal)
    {
        ["VCALENDAR"] = new("PRODID VERSION", "CALSCALE METHOD UID LAST-MODIFIED URL REFRESH-INTERVAL SOURCE COLOR", "NAME DESCRIPTION CATEGORIES IMAGE"),
        ["VEVENT"] = new(
            "UID DTSTAMP DTSTART",
            "DTEND DURATION RRULE CLASS CREATED DESCRIPTION GEO LAST-MODIFIED LOCATION ORGANIZER PRIORITY SEQUENCE STATUS SUMMARY TRANSP URL "
                + "RECURRENCE-ID COLOR",
            "EXDATE CATEGORIES COMMENT"),
        ["VALARM"] = new("ACTION DESCRIPTION TRIGGER", "DURATION REPEAT", ""),
        ["VTIMEZONE"] = new("TZID", "LAST-MODIFIED TZURL", ""),
        ["STANDARD"] = new("DTSTART TZOFFSETFROM TZOFFSETTO", "RRULE", "TZNAME COMMENT"),
        ["DAYLIGHT"] = new("DTSTART TZOFFSETFROM TZOFFSETTO", "RRULE", "TZNAME COMMENT"),
    };

    private readonly string[] _required = required.Split(' ');
    private readonly string[] _once = [.. required.Split(' '), .. once.Split(' ')];
    private readonly string[] _repeated = repeated.Split(' ');

    public static void Check(Component component)
    {
        if (!Components.TryGetValue(component.Name, out var cardinality)) throw new Malformed(component.Line,
            $"{component.Name} is no component that a timetable needs");
        foreach (var property in cardinality._required) component.The(property);
        foreach (var group in component.Properties.GroupBy(line => line.Name))
        {
            var isExtension = group.Key.StartsWith("X-", StringComparison.Ordinal);
            if (!isExtension && !cardinality._repeated.Contains(group.Key) && !cardinality._once.Contains(group.Key)) throw new Malformed(group.First().Number,
                $"{component.Name} has no {group.Key}");
            if (group.Count() > 1 && cardinality._once.Contains(group.Key)) throw new Malformed(group.ElementAt(1).Number,
                $"{component.Name} has {group.Key} twice");
        }
    }
}
