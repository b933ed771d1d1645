using NodaTime;

namespace WaterScript.Tests.Oracles;

/// <summary>Sites whose passes start, end and last where the clocks change.</summary>
/// <remarks>
/// The changes, S: the tz database, https://www.iana.org/time-zones. New York 8 March and 1 November 2026 at 02:00; Lisbon and Dublin
/// 29 March and 25 October at 01:00 UTC; Lord Howe by half an hour, 5 April and 4 October at 02:00; Casablanca around Ramadan, 15 February at 03:00 and 22
/// March
/// at 02:00; Santiago 5 April and 6 September at midnight; Kathmandu none, at an offset of 5:45.
/// </remarks>
internal static class ClockChangeSites
{
    public static readonly LocalDate From = new(2026, 1, 1);

    public static readonly LocalDate Until = new(2027, 1, 1);

    public static readonly string[] TimeZones =
    [
        "America/New_York", "Europe/Lisbon", "Europe/Dublin", "Australia/Lord_Howe", "Africa/Casablanca", "America/Santiago", "Asia/Kathmandu",
    ];

    /// <summary>Clock times that changes skip or double, at their edges and between, in one zone or another.</summary>
    private static readonly string[] Times =
        ["00:00", "00:30", "00:59:30", "01:00", "01:15", "01:30", "01:45", "02:00", "02:15", "02:30", "02:59:59", "03:00", "23:00", "23:30", "23:59:59"];

    public static IEnumerable<(string Name, string Text)> All =>
        TimeZones.SelectMany(zone => Schedules.Select(schedules => ($"{zone} {schedules.Name}", Site(zone, schedules.Text))));

    private static IEnumerable<(string Name, string Text)> Schedules =>
    [
        ("every day at each time", string.Concat(Times.Select((time, index) => Schedule($"at-{index}", $"every day; start at {time}", "40 min")))),
        ("every day with each length",
            string.Concat(((string[])["45 s", "20 min", "1 h", "1 h 30 min", "3 h", "23 h", "24 h", "26 h"])
            .Select((length, index) => Schedule($"long-{index}", "every day; start at 23:15", length)))),
        ("finishing at each time", string.Concat(Times.Select((time, index) => Schedule($"by-{index}", $"every day; finish by {time}", "50 min")))),
        ("each kind of days", string.Concat(Days.Select((days, index) => Schedule($"days-{index}", $"{days}; start at 01:30, 02:10", "35 min")))),
        ("passes over the change", string.Concat(
            Schedule("many", "every day; start at 22:00; repeat every 45 min for 12 passes", "7 min"),
            Schedule("until", "on sat, sun; start at 00:10; repeat every 50 min until 05:00", "7 min"),
            Schedule("after", "start after until + 20 min", "2 min"),
            Schedule("dense", "every day; start at 23:30; repeat every 8 min for 40 passes", "45 s"))),
        ("lengths by month and held days", """
            scale year { mar 60 %; apr 110 %; jul 150 %; oct 40 %; nov 0 % }
            hold a from 2026-03-07 22:00 to 2026-03-29 01:30 because "laid anew"
            hold from 2026-10-03 to 2026-10-05 because "away"
            closed from 20 nov to 10 feb because "drained"

            """ + Schedule("scaled", "every day; scale year; start at 01:20", "1 h") + Schedule("odd", "on odd days; scale year; start at 23:40", "30 min")),
    ];

    private static readonly string[] Days =
    [
        "on mon, wed, fri", "every 3 days", "every 2 weeks on sat, sun", "on odd days", "on even days", "on odd days; except days 31 of month",
        "on last sun of month, first sun of month", "on days 1, 29, 31 of month", "on last day of month", "on 29 mar, 25 oct, 8 mar, 1 nov",
        "every day; from 20 oct to 10 apr", "every day; from 2026-03-20 to 2026-04-10; except sun", "every 6 days; from 1 feb to 30 nov",
    ];

    private static string Schedule(string name, string lines, string length) =>
        $"schedule {name} {{ {lines}; steps {{ water a for {length} }} }}\n";

    private static string Site(string timeZone, string schedules) => $$"""
        site garden { timezone {{timeZone}}; effective 2026-01-01 }
        zone a { output 1 }
        {{schedules}}
        """;
}
