using System.Globalization;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A list of switchings that breaks the contract with the device is never written, whatever options and acceptances say.</summary>
public sealed class DeviceListTests : Workshop
{
    private const string Site = """
        site yard { timezone Europe/Lisbon; effective 2026-03-01 }
        controller box { outputs 4 }
        controller shed { outputs 4 }
        zone lawn { output 1 of box; flow 10 L/min }
        zone beds { output OUTPUT; flow 10 L/min }
        zone pots { output 1 of shed; flow 10 L/min }
        schedule dawn { every day; start at 05:00; steps { water lawn + beds for 10 min; water pots for 5 min } }

        """;

    private static string Shared => Site.Replace("OUTPUT", "1 of box", StringComparison.Ordinal);

    [Theory]
    [InlineData("--to csv --only switchings")]
    [InlineData("--to json --only switchings")]
    [InlineData("--to yaml")]
    [InlineData("--to json")]
    [InlineData("--to csv --only switchings --controller box")]
    public void Two_zones_on_one_output_are_refused_despite_errors(string form)
    {
        Write("yard.water", Shared);
        var result = Compile($"{form} --despite-errors");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.Contains("yard: no list of switchings is written: output 1 of box is used by lawn and beds. Nothing was written;", result.Error,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--to csv --only switchings --controller shed", "close")]
    [InlineData("--to csv --only runs", "beds")]
    [InlineData("--to csv --only openings", "beds")]
    [InlineData("--to yaml --only runs", "beds")]
    public void What_the_mistake_does_not_touch_is_written_despite_errors(string form, string word)
    {
        Write("yard.water", Shared);
        var result = Compile($"{form} --despite-errors");
        Assert.Contains(word, result.Output, StringComparison.Ordinal);
        Assert.Contains("end", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void An_accepted_sharing_is_refused_once_two_want_the_output_at_once()
    {
        Write("yard.water", Shared + "accept output-shared because \"one valve\"\n");
        var result = Compile("--to csv --only switchings");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.Contains("output 1 of box opens while it is open, for lawn and beds, at 2026-03-01T05:00:00+00:00", result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void An_accepted_sharing_one_after_the_other_is_written_with_one_guard_for_the_output()
    {
        var turns = Shared.Replace("water lawn + beds for 10 min", "water lawn for 10 min; water beds for 20 min", StringComparison.Ordinal);
        Write("yard.water", turns + "accept output-shared because \"one valve\"\n");
        var rows = Compile("--to csv --only switchings --controller box").Output.Split("\r\n")[1..5].Select(row => row.Split(','));
        Assert.Equal(["open 1260", "close 1260", "open 1260", "close 1260"], rows.Select(row => $"{row[4]} {row[7]}"));
    }

    [Fact]
    public void An_output_that_the_controller_has_not_got_is_refused_despite_errors()
    {
        Write("yard.water", Site.Replace("OUTPUT", "9 of box", StringComparison.Ordinal));
        var result = Compile("--to csv --only switchings --despite-errors");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.Contains("box has no output 9, which beds is wired to", result.Error, StringComparison.Ordinal);
    }

    /// <summary>A kind of valve that is not known would be driven as one that power holds open.</summary>
    [Theory]
    [InlineData("2 of bx")]
    [InlineData("2 of box; valve tbos")]
    public void A_file_that_could_not_be_read_whole_drives_nothing(string output)
    {
        Write("yard.water", Site.Replace("OUTPUT", output, StringComparison.Ordinal));
        var result = Compile("--to csv --only switchings --despite-errors");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.Contains("part of the file could not be read", result.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--from 1969-06-01 --days 2")]
    [InlineData("--from 2106-02-06 --days 5")]
    public void Dates_that_a_device_cannot_count_are_refused(string dates)
    {
        Write("yard.water", Site.Replace("OUTPUT", "2 of box", StringComparison.Ordinal));
        var result = Compile($"--to csv --only switchings {dates}");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.Contains("dates from 1970-01-02 to 2106-02-06", result.Error, StringComparison.Ordinal);
        Assert.Equal(0, Compile($"--to csv --only runs {dates}").ExitCode);
    }

    [Fact]
    public void Two_lists_of_the_same_rows_for_other_dates_have_two_hashes()
    {
        // It waters on 1 March only.
        Write("yard.water", Site.Replace("OUTPUT", "2 of box", StringComparison.Ordinal).Replace("every day", "on 2026-03-01", StringComparison.Ordinal));
        string[] Lines(int days) => Compile(string.Create(CultureInfo.InvariantCulture, $"--to csv --only switchings --days {days}")).Output.Split("\r\n");
        var (one, two) = (Lines(1), Lines(2));
        Assert.Equal(one[..^2], two[..^2]);
        Assert.NotEqual(one[^2].Split(',')[2], two[^2].Split(',')[2]);
    }

    /// <summary>Pulses that wait for one another keep a valve open for longer than its opening lasts; its guard waits as well.</summary>
    [Fact]
    public void A_guard_never_closes_before_a_delayed_pulse_does()
    {
        Write("bench.water", """
            site bench { timezone Europe/Lisbon; effective 2026-03-01 }
            controller box { outputs 8; stagger 90 s }
            valve small latching { pulse 40 ms }
            zone one { output 1; valve small; flow 1 L/min }
            zone two { output 2; valve small; flow 1 L/min }
            zone three { output 3; valve small; flow 1 L/min }
            zone four { output 4; valve small; flow 1 L/min }
            zone five { output 5; valve small; flow 1 L/min }
            schedule dawn { every day; start at 05:00; steps { water one + two + three + four + five for 2 min } }

            """);
        var result = Run("compile", "bench.water", "--to", "csv", "--only", "switchings", "--days", "1", "--despite-errors");
        var rows = result.Output.Split("\r\n")[1..^2].Select(row => row.Split(',')).ToList();
        Assert.NotEmpty(rows);
        foreach (var output in rows.GroupBy(row => row[3]))
        {
            var (open, close) = (output.First(row => row[4] == "open"), output.First(row => row[4] == "close"));
            Assert.InRange(MillisecondsOf(close) - MillisecondsOf(open), 1, 1000 * long.Parse(open[7], CultureInfo.InvariantCulture));
        }
    }

    private static long MillisecondsOf(string[] row) =>
        (long.Parse(row[0], CultureInfo.InvariantCulture) * 1000) + long.Parse(row[1], CultureInfo.InvariantCulture);

    private WaterscriptProcess.Result Compile(string words)
    {
        var dates = words.Contains("--days", StringComparison.Ordinal) ? "" : " --days 1";
        return Run(["compile", "yard.water", .. (words + dates).Split(' ')]);
    }
}
