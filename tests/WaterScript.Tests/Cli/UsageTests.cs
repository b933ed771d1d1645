using System.Text.Json;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class UsageTests : Workshop
{
    private static string Terraces => Path.Combine(Repository.Root, "examples/terraces.water");

    /// <summary>1 March to 31 December 2026: 306 dates of 100 L on the lawn; the beds have no flow.</summary>
    [Fact]
    public void Json_has_exact_numbers_and_what_is_missing()
    {
        Write("site.water", Good);
        var result = RunLine("usage site.water --year 2026 --by zone --report json");
        Assert.Equal(0, result.ExitCode);
        using var json = JsonDocument.Parse(result.Output);
        var lawn = json.RootElement.GetProperty("rows")[0];
        Assert.Equal(
            (30_600m, 510m, 306),
            (lawn.GetProperty("volume_l").GetDecimal(), lawn.GetProperty("depth_mm").GetDecimal(), lawn.GetProperty("openings").GetInt32()));
        Assert.False(json.RootElement.GetProperty("rows")[1].TryGetProperty("volume_l", out _));
        Assert.Equal("beds", json.RootElement.GetProperty("missing")[0].GetProperty("zone").GetString());
        Assert.Equal(("2026-03-01", "2027-01-01"), (json.RootElement.GetProperty("from").GetString(), json.RootElement.GetProperty("until").GetString()));
    }

    [Fact]
    public void Csv_has_a_line_for_each_row_and_no_totals()
    {
        Write("site.water", Good);
        Assert.Equal("month,zone,volume_l,depth_mm,seconds,openings\r\n2026-03,lawn,100,1.666667,600,1\r\n2026-03,beds,,,600,1\r\n",
            RunLine("usage site.water --until 2026-03-02 --report csv").Output);
    }

    [Fact]
    public void Markdown_has_a_table_for_each_axis()
    {
        Write("site.water", Good);
        var output = RunLine("usage site.water --until 2026-03-02 --report markdown").Output;
        Assert.StartsWith(
            "**Garden, 1 Mar 2026 (effective): at least 100 L**\n\n| month | L |\n| --- | ---: |\n| Mar 2026 | 100 |\n", output, StringComparison.Ordinal);
        Assert.Contains("| zone | L | mm |\n| --- | ---: | ---: |\n| lawn | 100 | 2 |\n| beds | – | – |\n", output, StringComparison.Ordinal);
    }

    /// <summary>The litres that the program compiles, added up by Python from its timetable.</summary>
    [Fact]
    public void An_example_adds_up()
    {
        var output = Run("usage", Terraces, "--year", "2026").Output;
        Assert.Contains("No water in Mar, Oct to Dec.", output, StringComparison.Ordinal);
        Assert.Matches(@"\nJul +11760 +1209 +5040 +1680 +10080 +29769\n", output);
        Assert.Matches(@"\nTotal +54600 +5616 +23400 +9060 +46800 +139476\n", output);
        Assert.Matches(@"\nmm +455 +125 +117 +302 +585\n", output);
        Assert.Contains("Pump lift: on 138.4 h, 727 times. Valves: 805 openings.",
            output.Replace("\n  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--by zones", "--by must be zone, schedule, supply, day, week, month or year, not zones; did you mean zone?")]
    [InlineData("--by zone,zone", "--by has the same word twice")]
    [InlineData("--by month,week", "--by takes one of day, week, month and year, and zone, schedule or supply beside it")]
    [InlineData("--by zone,month,supply", "--by takes one word or two, such as month,zone")]
    [InlineData("--year 2026 --from 2026-01-01", "--year names all dates; leave out --from and --until")]
    [InlineData("--until 2026-03-01 --from 2026-03-01", "--until 2026-03-01 is not after the first day, 2026-03-01")]
    [InlineData("--until 2300-03-01", "more than 36525 days; choose a nearer --until")]
    public void What_cannot_run_says_why(string options, string why)
    {
        Write("site.water", Good);
        var result = RunLine($"usage site.water {options}");
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_with_a_mistake_is_refused()
    {
        Write("site.water", Good.Replace("output 1", "output one", StringComparison.Ordinal));
        var result = RunLine("usage site.water");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.EndsWith("Nothing was added up.\n", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Dates_before_the_first_have_no_water()
    {
        Write("site.water", Good);
        Assert.StartsWith("Garden, 28 Feb 2026, L by zone. No water.\n",
            RunLine("usage site.water --by zone --until 2026-03-01").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_much_work_says_so()
    {
        Write("site.water", """
            site mist { timezone Europe/Lisbon; effective 2026-03-01 }
            zone fern { output 1; flow 6 L/min }
            schedule fog { every day; start at 00:00; repeat every 5 s until 23:59; steps { water fern for 1 s } }

            """);
        var result = Run("usage", "site.water");
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
        Assert.Contains("more work than an answer may take [over-limit]", result.Error, StringComparison.Ordinal);
    }
}
