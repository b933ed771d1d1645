using System.Globalization;
using System.Text;
using WaterScript.Answers.Audit;
using WaterScript.Answers.Audit.Words;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Audit;

/// <summary>Logs that no device writes: each row that cannot be used is reported with its line, and the others are used.</summary>
public sealed class HostileLogTests
{
    private const string Rows = "2026-06-01 06:00:00,lawn,open\n2026-06-01 06:10:00,lawn,close\n";

    private static readonly Site Garden = RandomRunsTests.Read(
        """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1; flow 6 L/min }
        schedule morning { every day; start at 06:00; steps { water lawn for 10 min } }
        """,
        out _)!;

    public static TheoryData<string, string> Lines => new()
    {
        { new string('x', 100_000), "it has more than 8192 letters" },
        { new string('"', 100_000), "it has more than 8192 letters" },
        { new string(',', 100_000), "it has more than 8192 letters" },
        { new string(',', 8_000), "\"\" is not a time" },
        { "\"2026-06-01 06:00:00,lawn,open", "it cannot be read as a row" },
        { "\"2026-06-01 06:00:00\",\"lawn\",\"drip\"", "\"drip\" is nothing that a valve does" },
        { "9998-06-01 06:00:00,lawn,open", "\"9998-06-01 06:00:00\" is more than 100 years after the site began: a clock that was not set" },
        { "99999999999,lawn,open", "\"99999999999\" is more than 100 years after the site began: a clock that was not set" },
        { "2026-02-30 06:00:00,lawn,open", "\"2026-02-30 06:00:00\" is not a time" },
        { "2026-06-01 06:00:00," + new string('z', 300) + ",open", "no zone is called \"" + new string('z', 100) + "…\"" },
        { "2026-06-01 06:00:00\0,lawn,open", "\"2026-06-01 06:00:00\0\" is not a time" },
    };

    [Theory]
    [MemberData(nameof(Lines))]
    public void A_line_that_cannot_be_used_is_passed_over_by_its_number(string line, string why)
    {
        var log = Log("time,zone,do\n" + line + "\n" + Rows);
        Assert.Equal("Done", Entries(log));
        Assert.Equal([new BadRow(new LogPlace("log.csv", 2), new RowProblem(why))], log.Bad);
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    [InlineData("\r\r\n")]
    [InlineData("\n\r\n")]
    public void Any_line_end_ends_a_line(string end)
    {
        var log = Log(("time,zone,do\n" + Rows + "never,lawn,open").Replace("\n", end, StringComparison.Ordinal));
        Assert.Equal("Done", Entries(log));
        Assert.Equal(end == "\n\r\n" ? 7 : 4, Assert.Single(log.Bad).Place.Line);
    }

    [Fact]
    public void A_log_of_one_endless_line_says_so() =>
        Assert.Equal("the first line of log.csv has more than 8192 letters; it should name the columns",
            new LogReader(Garden, LogColumns.Default).Open("log.csv", new StringReader(new string('x', 20_000_000))));

    [Fact]
    public void A_row_far_later_than_its_time_is_reported()
    {
        var log = Log("time,zone,do\n"
            + string.Concat(Enumerable.Range(0, 70_000).Select(row => string.Create(CultureInfo.InvariantCulture, $"{1_780_300_000 + row},,alive\n"))) + Rows);
        Auditor.Audit(Garden, log, new AuditOptions(), Timetable.Of(Garden, Horizon.DaysFrom(Garden.Effective, 1)));
        Assert.Equal(["70002 it comes more than 32768 rows later than its time", "70003 it comes more than 32768 rows later than its time"],
            log.Bad.Select(bad => string.Create(CultureInfo.InvariantCulture, $"{bad.Place.Line} {bad.Why}")));
    }

    [Fact]
    public void Of_many_bad_rows_the_first_are_kept_and_all_are_counted()
    {
        var log = Log("time,zone,do\n" + string.Concat(Enumerable.Repeat("never,lawn,open\n", 30_000)) + Rows);
        var report = Auditor.Audit(Garden, log, new AuditOptions(), Timetable.Of(Garden, Horizon.DaysFrom(Garden.Effective, 1)))!;
        Assert.Equal((10_000, 30_000), (report.Bad.Length, report.BadCount));
        Assert.Contains("\"never\" is not a time (log.csv:2, 3, 4, 5, 6, 7, 8, 9, and 9992 more); and 20000 more.",
            Reports.Plain(lines => AuditText.Write(report, lines)).Replace("\n  ", " ", StringComparison.Ordinal),
            StringComparison.Ordinal);
        using var json = new MemoryStream();
        AuditJson.Write(report, json);
        Assert.Contains("\"passed_over_in_all\": 30000", Encoding.UTF8.GetString(json.ToArray()), StringComparison.Ordinal);
    }

    /// <summary>The log of a hundred years of a site that waters every two seconds would be compared for minutes.</summary>
    [Fact]
    public void A_short_log_of_a_long_time_is_compared_up_to_the_limit()
    {
        var site = RandomRunsTests.Read(
            """
            site mist { timezone Europe/Lisbon; effective 2026-03-01 }
            zone fern { output 1 }
            schedule fog { every day; start at 00:00; repeat every 5 s until 23:59; steps { water fern for 1 s } }
            """,
            out _)!;
        var log = new LogReader(site, LogColumns.Default);
        Assert.Null(log.Read("log.csv", "time,zone,do\n2026-03-01 00:00,fern,open\n2026-03-01 00:00:01,fern,close\n2100-03-01 00:00:00,,alive\n"));
        var report = Auditor.Audit(site, log, new AuditOptions(), Timetable.Of(site, Horizon.DaysFrom(site.Effective, 1)))!;
        Assert.Equal("fog", report.InPart!.Most.Name);
        Assert.False(report.IsAsMeant);
        Assert.Contains("[over-limit]", Reports.Plain(lines => AuditText.Write(report, lines)), StringComparison.Ordinal);
    }

    private static LogReader Log(string text)
    {
        var log = new LogReader(Garden, LogColumns.Default);
        Assert.Null(log.Read("log.csv", text));
        return log;
    }

    private static string Entries(LogReader log) =>
        string.Join(' ', Auditor.Audit(Garden, log, new AuditOptions(), Timetable.Of(Garden, Horizon.DaysFrom(Garden.Effective, 1)))!.Entries.Select(entry =>
            entry.Class));
}
