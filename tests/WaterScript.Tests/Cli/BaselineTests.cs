using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A baseline hides what was there, and nothing that is new or has become worse.</summary>
public sealed class BaselineTests : Workshop
{
    private const string Flow = """
        site plot "Plot" { timezone Europe/Lisbon; effective 2026-03-01 }
        supply tap { flow 30 L/min }
        zone lawn { output 1; flow 31 L/min }
        schedule morning { every day; start at 06:00; steps { water lawn for 10 min } }

        """;

    private const string Climate = """
        site plot "Plot" { timezone Europe/Lisbon; location 39.6 N 8.1 W 310 m; effective 2026-03-01 }
        climate { jun 14 C to 25 C, rain 90 mm; jul 16.1 C to 27.9 C, rain 4 mm; aug 16 C to 28 C, rain 90 mm }
        zone lawn { output 1; rate 15 mm/h; soil loam; plants turf-cool }
        schedule often { on tue, fri; from 1 jun to 31 aug; start at 05:00; steps { water lawn for 20 min } }

        """;

    private static string Wires => """
        site plot "Plot" { timezone Europe/Lisbon; effective 2026-03-01 }
        controller box { outputs 4; power { transformer 40 VA at 24 V } }
        valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 22 V }
        zone far { output 1; valve ac24; wire 250 m 1.5 mm2 }
        schedule morning { every day; start at 06:00; steps { water far for 10 min } }

        """;

    public static TheoryData<string, string, string, string, string> WhatGetsWorse => new()
    {
        { "more flow", Flow, "flow-over-supply", "flow 31 L/min", "flow 310 L/min" },
        { "less supply", Flow, "flow-over-supply", "flow 30 L/min", "flow 12 L/min" },
        { "one dry month, then more", Climate, "under-watered", "aug 16 C to 28 C, rain 90 mm", "aug 16 C to 28 C, rain 2 mm" },
        { "a higher need of the valve", Wires, "voltage-drop", "minimum-voltage 22 V", "minimum-voltage 23.5 V" },
    };

    [Theory]
    [MemberData(nameof(WhatGetsWorse))]
    public void What_gets_worse_counts_as_new(string what, string site, string rule, string then, string now)
    {
        Assert.NotEqual("", what);
        Write("site.water", site);
        Assert.Equal(0, Run("check", "--strict", "site.water", "--write-baseline", "base.txt").ExitCode);
        Assert.DoesNotContain($"[{rule}]", Run("check", "site.water", "--baseline", "base.txt").Output, StringComparison.Ordinal);
        Write("site.water", site.Replace(then, now, StringComparison.Ordinal));
        var worse = Run("check", "site.water", "--baseline", "base.txt", "--rule", rule);
        Assert.Equal(1, worse.ExitCode);
        Assert.Contains($"[{rule}]", worse.Output, StringComparison.Ordinal);
        Assert.Contains("Worse than in the baseline: ", worse.Output, StringComparison.Ordinal);

        // Written of the graver one, it hides the lighter one: that is an improvement.
        Assert.Equal(0, Run("check", "--strict", "site.water", "--write-baseline", "worse.txt").ExitCode);
        Write("site.water", site);
        Assert.Equal(0, Run("check", "site.water", "--baseline", "worse.txt", "--rule", rule).ExitCode);
    }

    [Fact]
    public void What_happens_more_often_counts_as_new()
    {
        var site = Flow.Replace("steps {", "\nsteps {", StringComparison.Ordinal);
        Write("site.water", site.Replace("every day", "on mon", StringComparison.Ordinal));
        Run("check", "site.water", "--write-baseline", "base.txt");
        Write("site.water", site.Replace("every day", "on mon, thu", StringComparison.Ordinal));
        var result = Run("check", "site.water", "--baseline", "base.txt");
        Assert.Equal(1, result.ExitCode);
        // From Sunday 1 March 2026 to Tuesday 29 February 2028 there are 105 Mondays and 104 Thursdays: 731 days are 104 weeks, from a Sunday on, and 3 days.
        Assert.Contains("105 times then, 209 now.", string.Join(' ', result.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)),
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_schema_holds_what_counts_and_what_does_not()
    {
        Write("site.water", Flow);
        Run("check", "site.water", "--write-baseline", "base.txt");
        Assert.Contains("\"in_baseline\": 1", Run("check", "site.water", "--baseline", "base.txt", "--report", "json").Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("north/site.water", "north/other.water")]
    [InlineData("north/site.water", "south/site.water")]
    public void A_file_that_is_renamed_or_moved_keeps_its_entries(string then, string now)
    {
        Write(then, Flow);
        Write("rest.water", Good);
        Run("check", ".", "--write-baseline", "base.txt");
        Write(now, Read(then));
        Assert.Equal(1, Run("check", ".", "--baseline", "base.txt").ExitCode); // A copy is not a move.
        File.Delete(PathOf(then));
        var moved = Run("check", "--strict", ".", "--baseline", "base.txt");
        Assert.Equal(0, moved.ExitCode);
        Assert.DoesNotContain("not found here", moved.Output, StringComparison.Ordinal);
        Write(now, Flow.Replace("flow 31 L/min", "flow 99 L/min", StringComparison.Ordinal));
        Assert.Contains("Worse than in the baseline", Run("check", ".", "--baseline", "base.txt").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_was_there_already_takes_nothing_from_one_that_is_gone()
    {
        Write("north.water", Flow);
        Write("south.water", Flow.Replace("flow 31 L/min", "flow 29 L/min", StringComparison.Ordinal));
        Run("check", ".", "--write-baseline", "base.txt");
        File.Delete(PathOf("north.water"));
        Write("south.water", Flow);
        Assert.Equal(1, Run("check", ".", "--baseline", "base.txt").ExitCode);
    }

    [Fact]
    public void One_file_with_the_baseline_of_the_folder_advises_nothing()
    {
        Write("plots/north.water", Flow);
        Write("plots/south.water", Flow.Replace("plot", "south", StringComparison.Ordinal));
        Run("check", "plots", "--write-baseline", "base.txt");
        Assert.DoesNotContain("base.txt", Run("check", "plots/north.water", "--baseline", "base.txt").Output, StringComparison.Ordinal);
        File.Delete(PathOf("plots/south.water"));
        Assert.DoesNotContain("base.txt", Run("check", "plots/north.water", "--baseline", "base.txt").Output, StringComparison.Ordinal);
        Assert.Contains("base.txt: 1 of its findings was not found here", Run("check", "plots", "--baseline", "base.txt").Output, StringComparison.Ordinal);
        Assert.DoesNotContain("base.txt", Run("check", "plots", "--quiet", "--baseline", "base.txt").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_baseline_of_the_older_form_says_so_and_is_written_anew()
    {
        Write("site.water", Flow);
        Write("base.txt", "# WaterScript baseline 1: rule, how often, file, line. Findings in it do not count.\nunused\t1\tsite.water\tx\n");
        var old = Run("check", "site.water", "--baseline", "base.txt");
        Assert.Equal(2, old.ExitCode);
        Assert.Contains("base.txt is a baseline of another form, which does not show how bad a finding was", old.Error, StringComparison.Ordinal);
        Assert.Equal(0, Run("check", "site.water", "--write-baseline", "base.txt").ExitCode);
        Assert.Equal(0, Run("check", "site.water", "--baseline", "base.txt").ExitCode);
    }
}
