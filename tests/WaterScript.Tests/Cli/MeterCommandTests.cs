using System.Text.Json.Nodes;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>What a water meter shows, beside the plan and beside a log; worked out by hand.</summary>
public sealed class MeterCommandTests : Workshop
{
    /// <summary>100 min at 100 L/min are 10 m3 on each of four days.</summary>
    private const string Plot = """
        site plot "Plot" { timezone UTC; effective 2020-06-01 }
        tariff town { currency EUR; price 2 per m3 }
        supply tap "Tap" { tariff town }
        zone lawn "Lawn" { output 1; flow 100 L/min }
        schedule s { on 2020-06-01 to 2020-06-04; start at 06:00; steps { water lawn for 100 min } }
        """;

    /// <summary>Three days as planned, and on the third 70 min more by hand: 7 m3.</summary>
    private const string Log = """
        number,time,zone,do
        1,2020-06-01 05:59:30,,alive
        2,2020-06-01 06:00,lawn,open
        3,2020-06-01 07:40,lawn,close
        4,2020-06-02 06:00,lawn,open
        5,2020-06-02 07:40,lawn,close
        6,2020-06-03 06:00,lawn,open
        7,2020-06-03 07:40,lawn,close
        8,2020-06-03 20:00,lawn,"open,hand"
        9,2020-06-03 21:10,lawn,"close,hand"
        10,2020-06-04 06:00,lawn,open
        11,2020-06-04 07:40,lawn,close

        """;

    private (string Output, int Status) Audit(string readings, string log = "", string options = "")
    {
        Write("plot.water", Plot);
        Write("readings.csv", readings);
        Write("log.csv", Log);
        var result = RunLine($"audit plot.water {log} --meter readings.csv {options}".Replace("  ", " ", StringComparison.Ordinal).TrimEnd());
        Assert.Equal("", result.Error);
        return (result.Output, result.ExitCode);
    }

    [Fact]
    public void Without_a_log_nothing_explains_a_period()
    {
        var (output, status) = Audit("date,tap\n2020-06-01,5\n2020-06-03,25\n2020-06-05,53\n");
        Assert.Contains("3 Jun to 4 Jun 2020: 8.000 more than planned; no log says why.", output, StringComparison.Ordinal);
        Assert.Contains("1 Jun to 2 Jun 2020    20.000  0.000   20.000   20.000       0.000 (0 %)", output, StringComparison.Ordinal);
        Assert.Contains("3 Jun to 4 Jun 2020    20.000  0.000   20.000   28.000  ! +8.000 (+40 %)", output, StringComparison.Ordinal);
        Assert.Equal(1, status);
    }

    /// <summary>7 of the 8 m3 more are by hand; 28 are within a tenth of the 27 of the log, 31 are not.</summary>
    [Theory]
    [InlineData("53", "7.000 by hand (Lawn, 1 h 10 min, log.csv:9); the log explains it", 0)]
    [InlineData("56", "7.000 by hand (Lawn, 1 h 10 min, log.csv:9); 4.000 not explained", 1)]
    public void A_log_explains_what_it_has(string last, string why, int status)
    {
        var (output, actual) = Audit($"date,tap\n2020-06-01,5\n2020-06-03,25\n2020-06-05,{last}\n", "log.csv", "--until 2020-06-05");
        Assert.Contains(why, string.Join(' ', output.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.Contains("2 of 2 passes, by hand 7.000", output, StringComparison.Ordinal);
        Assert.Contains("4 of 4 waterings done, 1 manual", output, StringComparison.Ordinal);
        Assert.Equal(status, actual);
    }

    [Fact]
    public void A_comment_marks_what_is_unusual_and_programs_get_litres()
    {
        const string readings = "date,tap\n2020-06-01,5\n2020-06-03,25\n2020-06-05,53\n";
        Assert.Contains("**\\! +8.000 (+40 %)**", Audit(readings, options: "--report markdown").Output, StringComparison.Ordinal);
        var found = JsonNode.Parse(Audit(readings, "log.csv", "--until 2020-06-05 --report json").Output)!;
        var period = found["meters"]![0]!["periods"]![1]!;
        Assert.Equal((20_000m, 0m, 28_000m, 27_000m, 7_000m), ((decimal)period["watering_l"]!, (decimal)period["other_l"]!, (decimal)period["metered_l"]!,
            (decimal)period["logged_l"]!, (decimal)period["by_hand_l"]!));
        Assert.Equal((true, true, 2, 2), ((bool)period["unusual"]!, (bool)period["explained"]!, (int)period["passes"]!, (int)period["passes_done"]!));
        Assert.Equal("2020-06-05T00:00:00+00:00", (string?)JsonNode.Parse(Audit(readings, options: "--report json").Output)!["to"]);
    }

    [Fact]
    public void A_reading_that_cannot_be_used_is_named_and_ends_with_1()
    {
        var (output, status) = Audit("date,tap,pond\n2020-06-01,5,1\n2020-06-03,25,\n2090-01-01,26,\n");
        Assert.Contains("Not used, readings.csv:1: no supply is called \"pond\"; there is tap.", output, StringComparison.Ordinal);
        Assert.Contains("Not used, readings.csv:4: \"2090-01-01\" is in the future.", output, StringComparison.Ordinal);
        Assert.Equal(1, status);
    }

    [Theory]
    [InlineData("audit plot.water", "audit needs FILE, LOG; or --meter with readings in place of a log")]
    [InlineData("audit plot.water --meter gone.csv", "no such file: gone.csv")]
    [InlineData("audit plot.water --meter empty.csv", "no column of empty.csv is called date or time")]
    [InlineData("audit plot.water --meter one.csv", "one.csv has no two readings of one meter that can be used")]
    [InlineData("audit plot.water --meter falls.csv",
        "falls.csv has no two readings of one meter that can be used; falls.csv:3: the meter of tap shows less than in line 2")]
    [InlineData("audit plot.water one.csv --meter one.csv --list one.csv",
        "--meter compares readings with what the file plans; leave out --list and --revision")]
    [InlineData("audit plot.water - --meter -", "only one of the files can be standard input")]
    public void What_cannot_run_says_why(string line, string why)
    {
        Write("plot.water", Plot);
        Write("empty.csv", "");
        Write("one.csv", "date,tap\n2020-06-01,5\n");
        Write("falls.csv", "date,tap\n2020-06-01,5\n2020-06-02,4\n");
        var result = RunLine(line);
        Assert.StartsWith("waterscript: " + why, result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }
}
