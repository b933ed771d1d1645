using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>An audit is not green without evidence: rows that match nothing, and waterings without rows, end with status 1 and are named.</summary>
public sealed class AuditEvidenceTests : Workshop
{
    private const string Header = "time,output,do\n";

    /// <summary>A park of three controllers, each with a lawn at 06:00, 07:00 and 08:00.</summary>
    private const string Park = """
        site park "Park" { timezone Europe/Lisbon; effective 2026-03-01 }
        controller north { outputs 4 }
        controller south { outputs 4 }
        controller west { outputs 4 }
        zone north-lawn { output 1 of north; flow 10 L/min }
        zone south-lawn { output 1 of south; flow 10 L/min }
        zone west-lawn { output 1 of west; flow 10 L/min }
        schedule north { every day; start at 06:00; steps { water north-lawn for 10 min } }
        schedule south { every day; start at 07:00; steps { water south-lawn for 10 min } }
        schedule west { every day; start at 08:00; steps { water west-lawn for 10 min } }

        """;

    [Fact]
    public void Rows_that_could_be_of_any_controller_are_no_evidence()
    {
        Write("park.water", Park);
        var rows = new StringBuilder(Header);
        for (var minute = 0; minute < 24; minute++)
            rows.Append(CultureInfo.InvariantCulture, $"2026-06-01 08:{minute:00},1,{(minute % 2 == 0 ? "open" : "close")}\n");
        Write("log.csv", rows.ToString() + "2026-06-01 09:00,,alive\n");
        var result = RunLine("audit park.water log.csv");
        Assert.Equal(1, result.ExitCode);
        Assert.Contains("it does not say which controller the output is of (--controller NAME does, for all rows)",
            result.Output.Replace("\n  ", " ", StringComparison.Ordinal),
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_controller_that_is_named_for_all_rows_is_compared_alone()
    {
        Write("park.water", Park);
        Write("log.csv", Header + "2026-06-01 07:00,1,open\n2026-06-01 07:10,1,close\n");
        Assert.Equal(2, RunLine("audit park.water log.csv").ExitCode); // No row could be used.
        var result = RunLine("audit park.water log.csv --controller south");
        Assert.StartsWith("Park, Mon 1 Jun 2026 07:00 to 07:10, 2 rows: 1 of 1 watering done.\n", result.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("north", result.Output, StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);
        Assert.Equal("waterscript: no controller \"sout\"; did you mean south?\n", RunLine("audit park.water log.csv --controller sout").Error);
    }

    [Fact]
    public void A_row_of_one_controller_shows_nothing_of_another()
    {
        Write("park.water", Park);
        const string Named = "time,controller,output,do,number\n";
        Write("log.csv", Named + "2026-06-01 06:00,north,1,open,1\n2026-06-01 06:10,north,1,close,2\n2026-06-01 08:00,west,1,open,1\n"
            + "2026-06-01 08:10,west,1,close,2\n2026-06-01 23:00,north,,alive,3\n");
        var result = RunLine("audit park.water log.csv");
        Assert.Equal(1, result.ExitCode);
        Assert.Contains("3 waterings", result.Output, StringComparison.Ordinal);
        Assert.Contains("1 not known", result.Output, StringComparison.Ordinal); // Not missed: the controller of the south never said a word.
        Assert.Contains("south-lawn", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_boot_of_one_controller_closes_nothing_of_another()
    {
        Write("park.water", Park.Replace("07:00", "06:05", StringComparison.Ordinal).Replace("08:00", "06:05", StringComparison.Ordinal));
        const string Named = "time,controller,output,do\n";
        Write("log.csv", Named + "2026-06-01 06:00,north,1,open\n2026-06-01 06:05,south,1,open\n2026-06-01 06:05,west,1,open\n2026-06-01 06:07,south,,boot\n"
            + "2026-06-01 06:10,north,1,close\n2026-06-01 06:15,west,1,close\n2026-06-01 06:30,south,,alive\n");
        var result = RunLine("audit park.water log.csv");
        Assert.Contains("2 of 3 waterings done, 1 interrupted", result.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("zone", "2026-06-01 12:00,nowhere,open", 1)]
    [InlineData("output", "2026-06-01 12:00,7,open", 1)]
    [InlineData("output", "2026-06-01 12:00,7,close", 0)] // What nothing is wired to is closed with all others.
    [InlineData("output", "1970-01-01 00:00,,boot", 0)]
    [InlineData("output", "1970-01-01 00:00,1,open", 1)]
    [InlineData("output", "2026-06-01 12:00,1,dance", 1)]
    [InlineData("output", "yesterday,1,open", 1)]
    public void Rows_that_match_nothing_are_no_evidence_unless_nothing_is_missed_without_them(string column, string row, int status)
    {
        Write("site.water", Good);
        var rows = column == "zone"
            ? "lawn,open\n2026-06-01 06:10,lawn,close\n2026-06-01 06:10,beds,open\n2026-06-01 06:20,beds,close\n"
            : "1,open\n2026-06-01 06:10,1,close\n2026-06-01 06:10,2,open\n2026-06-01 06:20,2,close\n";
        Write("log.csv", $"time,{column},do\n2026-06-01 06:00,{rows}");
        Assert.Equal(0, RunLine("audit site.water log.csv").ExitCode);
        Write("log.csv", Read("log.csv") + row + "\n");
        Assert.Equal(status, RunLine("audit site.water log.csv").ExitCode);
    }

    [Fact]
    public void Dates_that_are_asked_for_need_rows()
    {
        Write("site.water", Good);
        Write("log.csv", "time,output,do\n2026-06-02 06:00,1,open\n2026-06-02 06:10,1,close\n2026-06-02 06:10,2,open\n2026-06-02 06:20,2,close\n");
        Assert.Equal(0, RunLine("audit site.water log.csv").ExitCode);
        var result = RunLine("audit site.water log.csv --from 2026-06-01 --days 3");
        Assert.Equal(1, result.ExitCode);
        Assert.Contains("2 of 6 waterings done, 4 not known", result.Output, StringComparison.Ordinal);
        Assert.Contains("Mon 1 Jun 2026 06:00  lawn", result.Output, StringComparison.Ordinal);
        Assert.Contains("Wed 3 Jun 2026 06:10  beds", result.Output, StringComparison.Ordinal);
    }

    /// <summary>The power goes at 06:04, seen by nobody; it is back at 06:07, and the device waters what is left.</summary>
    [Fact]
    public void Water_after_a_power_cut_is_not_counted_and_pieces_are_added()
    {
        Write("site.water", Good);
        Write("log.csv", "time,output,do\n2026-06-01 06:00,1,open\n2026-06-01 06:04,,alive\n2026-06-01 06:07,,boot\n2026-06-01 06:07,1,close\n"
            + "2026-06-01 06:07,1,open\n2026-06-01 06:10,1,close\n2026-06-01 06:10,2,open\n2026-06-01 06:20,2,close\n");
        var result = RunLine("audit site.water log.csv --report json");
        Assert.Equal(1, result.ExitCode);
        var report = JsonNode.Parse(result.Output)!;
        var lawn = report["entries"]!.AsArray().Single(entry => entry!["zone"]!.GetValue<string>() == "lawn")!;
        Assert.Equal(("interrupted", 420, 180),
            (lawn["class"]!.GetValue<string>(), lawn["actual_s"]!.GetValue<int>(), lawn["not_known_s"]!.GetValue<int>())); // 4 + 3 min, 3 min unknown.
        var water = report["water"]!.AsArray().Single(zone => zone!["zone"]!.GetValue<string>() == "lawn")!;
        Assert.Equal((600, 420, 180), (water["meant_s"]!.GetValue<int>(), water["actual_s"]!.GetValue<int>(), water["not_known_s"]!.GetValue<int>()));
        Assert.Equal(70, water["actual_l"]!.GetValue<decimal>()); // 10 L/min, 7 min.
        Assert.Contains("interrupted, ran 7 min; 3 min not known; 10 min planned", RunLine("audit site.water log.csv").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_row_before_the_boot_nothing_is_known_of_it()
    {
        Write("site.water", Good);
        Write("log.csv", "time,output,do\n2026-06-01 06:00,1,open\n2026-06-01 06:30,,boot\n2026-06-01 06:30,1,close\n2026-06-01 06:30,2,close\n");
        var water = JsonNode.Parse(RunLine("audit site.water log.csv --report json").Output)!["water"]!.AsArray()
            .Single(zone => zone!["zone"]!.GetValue<string>() == "lawn")!;
        Assert.Equal((0, 600), (water["actual_s"]!.GetValue<int>(), water["not_known_s"]!.GetValue<int>()));
    }
}
