using System.Globalization;
using NodaTime;
using WaterScript.Answers.Audit;
using WaterScript.Answers.Audit.Words;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Audit;

/// <summary>Logs of a device that does what it is to do, by a clock that is off, with one watering closed 200 s early among them.</summary>
public sealed class LogClockTests
{
    private static readonly Site Garden = RandomRunsTests.Read(
        """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1 }
        zone beds { output 2 }
        schedule morning { every day; start at 06:00; steps { water lawn, beds for 10 min } }
        schedule evening { every day; start at 20:00; steps { water lawn, beds for 10 min } }
        """,
        out _)!;

    [Theory]
    [InlineData(240, "4 min ahead")]
    [InlineData(-600, "10 min behind")]
    public void A_clock_that_is_off_is_one_finding(int ahead, string words)
    {
        var text = Audit(new LocalDate(2026, 6, 1), 5, _ => ahead, out var report);
        Assert.Equal(["Short"], report.Entries.Where(entry => entry.Class != AuditClass.Done).Select(entry => entry.Class.ToString()));
        Assert.Contains($"Clock of the log:\n  the clock of the log is {words}\n  all times here are corrected by that\n", text, StringComparison.Ordinal);
        Assert.False(report.IsAsMeant);
    }

    [Fact]
    public void A_clock_within_the_tolerance_is_right()
    {
        Audit(new LocalDate(2026, 6, 1), 5, _ => 50, out var report);
        Assert.Null(report.Clock);
    }

    /// <summary>Clocks go forward in Lisbon on 29 Mar 2026.</summary>
    [Fact]
    public void A_log_in_winter_time_is_an_hour_behind_in_summer()
    {
        var change = new LocalDateTime(2026, 3, 29, 3, 0).InZoneStrictly(Garden.TimeZone).ToInstant().ToUnixTimeSeconds();
        var text = Audit(new LocalDate(2026, 3, 20), 20, at => at > change ? -3_600 : 0, out var report);
        Assert.Single(report.Entries, entry => entry.Class != AuditClass.Done);
        Assert.Contains("  the log is kept in winter time: 1 h behind in summer\n  all", text, StringComparison.Ordinal);
    }

    /// <summary>A gain of 70 s a week is 10 s a day.</summary>
    [Fact]
    public void A_drift_is_measured_each_week()
    {
        var start = new LocalDateTime(2026, 6, 1, 6, 0).InZoneStrictly(Garden.TimeZone).ToInstant().ToUnixTimeSeconds();
        var text = Audit(new LocalDate(2026, 6, 1), 42, at => (int)((at - start) / 8_640), out var report);
        Assert.Single(report.Entries, entry => entry.Class != AuditClass.Done);
        Assert.Equal((6, 70), (report.Clock!.Weeks.Length, (int)Math.Round(report.Clock.PerWeek)));
        Assert.Contains("  the clock of the log gains 1 min 10 s a week\n  from Mon 1 Jun 2026 06:00: ", text, StringComparison.Ordinal);
    }

    /// <summary>Clocks go back from 02:00 to 01:00 in Lisbon on 25 Oct 2026: from 01:50 to 01:20 are 30 min.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_order_of_rows_settles_the_doubled_hour(bool isNumbered)
    {
        var log = new LogReader(Garden, LogColumns.Default);
        var rows = new[] { "2026-10-25 01:50,lawn,open", "2026-10-25 01:20,lawn,close", "2026-10-25 01:30,beds,open", "2026-10-25 01:40,beds,close" };
        var head = isNumbered ? "time,zone,do,number\n" : "time,zone,do\n";
        Assert.Null(log.Read("log.csv", head + string.Concat(rows.Select((row, index) => string.Create(CultureInfo.InvariantCulture,
            $"{row}{(isNumbered ? $",{index + 1}" : "")}\n")))));
        var first = Instant.FromUtc(2026, 10, 25, 0, 50).ToUnixTimeSeconds();
        Assert.Equal([first, first + 1_800, first + 2_400, first + 3_000], log.Events().Select(logged => (long)logged.At));
    }

    private static string Audit(LocalDate from, int days, Func<long, int> ahead, out AuditReport report)
    {
        var rows = Timetable.Of(Garden, Horizon.DaysFrom(from, days)).Openings().SelectMany((opening, index) => new[]
        {
            (At: opening.From, Text: $"{Garden.Zones[opening.Zone].Name},open"),
            (At: opening.To - (index == 5 ? 200 : 0), Text: $"{Garden.Zones[opening.Zone].Name},close"),
        });
        var log = new LogReader(Garden, LogColumns.Default);
        Assert.Null(log.Read("log.csv", "time,zone,do\n" + string.Concat(rows.Select(row =>
            string.Create(CultureInfo.InvariantCulture, $"{row.At + ahead(row.At)},{row.Text}\n")))));
        var audited = report = Auditor.Audit(Garden, log, new AuditOptions(), Timetable.Of(Garden, Horizon.DaysFrom(Garden.Effective, 1)))!;
        return Reports.Plain(lines => AuditText.Write(audited, lines));
    }
}
