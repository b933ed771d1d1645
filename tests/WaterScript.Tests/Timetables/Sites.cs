using NodaTime;
using NodaTime.Text;
using WaterScript.Binding;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Timetables;

/// <summary>Sites written in a test, and their runs as lines that a person can check.</summary>
internal static class Sites
{
    private static readonly LocalDateTimePattern Moment = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss");

    /// <summary>Three zones on one controller in a time zone; schedules follow.</summary>
    public static string Garden(string schedules, string timeZone = "Europe/Lisbon", string effective = "2026-01-01", string location = "39.6 N 8.1 W") =>
        $$"""
        site garden { timezone {{timeZone}}; effective {{effective}}; location {{location}} }
        zone a { output 1; flow 6 L/min; area 20 m2 }
        zone b { output 2 }
        zone c { output 3 }
        {{schedules}}
        """;

    public static Site Read(string text)
    {
        var reading = SiteReader.Read(SourceText.From("site.water", text), "site.water", NoFiles.Instance, DateTimeZoneProviders.Tzdb);
        Assert.DoesNotContain(reading.Findings, finding => finding.Severity == Severity.Error);
        Assert.NotNull(reading.Site);
        return reading.Site;
    }

    /// <summary><c>2026-05-01 06:00:00 +01 zone 600 s schedule step</c> for each run.</summary>
    public static string[] RunLines(string text, string from, int days) =>
        [.. RunLines(Timetable.Of(Read(text), Horizon.DaysFrom(LocalDatePattern.Iso.Parse(from).Value, days)))];

    public static IEnumerable<string> RunLines(Timetable timetable)
    {
        var zone = timetable.Site.TimeZone;
        foreach (var run in timetable.Runs())
        {
            var start = Instant.FromUnixTimeSeconds(run.Start).InZone(zone);
            yield return $"{Moment.Format(start.LocalDateTime)} {start.Offset:g} {timetable.Site.Zones[run.Zone].Name} {run.Seconds} s "
                + $"{timetable.Site.Schedules[run.Schedule].Name} {timetable.StepPath(run)}";
        }
    }

    /// <summary>Starts of passes as <c>2026-05-01 06:00:00 +01</c>.</summary>
    public static string[] PassLines(string text, string from, int days)
    {
        var timetable = Timetable.Of(Read(text), Horizon.DaysFrom(LocalDatePattern.Iso.Parse(from).Value, days));
        return [.. timetable.Passes().Select(pass => Instant.FromUnixTimeSeconds(pass.Start).InZone(timetable.Site.TimeZone))
            .Select(start => $"{Moment.Format(start.LocalDateTime)} {start.Offset:g}")];
    }

    /// <summary>The dates on which something starts.</summary>
    public static string[] Dates(string text, string from, int days)
    {
        var timetable = Timetable.Of(Read(text), Horizon.DaysFrom(LocalDatePattern.Iso.Parse(from).Value, days));
        return [.. timetable.Passes().Select(pass => LocalDatePattern.Iso.Format(CivilDate.FromDayNumber(pass.Day).ToLocalDate())).Distinct()];
    }

    private sealed class NoFiles : ISourceReader
    {
        public static NoFiles Instance { get; } = new();

        public SourceText? Read(string path) => null;
    }
}
