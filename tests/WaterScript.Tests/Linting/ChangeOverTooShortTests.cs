using WaterScript.Diagnostics;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>Two passes after one another, and whether the supply has its gap between them.</summary>
public class ChangeOverTooShortTests
{
    [Theory]
    [InlineData("b", "06:09:59", "change-over gap 5 s", 0)] // at once, which is no change-over
    [InlineData("b", "06:10", "change-over gap 5 s", 1)]
    [InlineData("b", "06:10:04", "change-over gap 5 s", 1)]
    [InlineData("b", "06:10:05", "change-over gap 5 s", 0)]
    [InlineData("b", "06:10", "change-over overlap 5 s", 0)]
    [InlineData("b", "06:10", "flow 10 L/min", 0)]
    [InlineData("c", "06:10", "change-over gap 5 s", 0)] // another supply
    [InlineData("a", "06:10", "change-over gap 5 s", 0)] // its valve stays open
    [InlineData("a", "06:10:02", "change-over gap 5 s", 1)]
    public void What_comes_sooner_than_the_gap_is_found(string zone, string start, string change, int findings) =>
        Assert.Equal(findings, Found(change, $"schedule second {{ every day; start at {start}; steps {{ water {zone} for 1 min }} }}").Length);

    [Fact]
    public void One_finding_says_when_how_often_and_how_much_is_missing()
    {
        var finding = Assert.Single(Found("change-over gap 8 s", "schedule second { on sat, sun; start at 06:10:03; steps { water b + d for 1 min } }"));
        Assert.Equal("supply tap has 3 s between two waterings, needs 8 s", finding.Heading);
        Assert.Equal("06:10:03", finding.Primary.Location.Text);
        Assert.Equal("waters b from 06:10:03", finding.Primary.Text);
        Assert.Equal(["waters a until 06:10", "needs 8 s"], finding.Others.Select(label => label.Text));
        Assert.Equal("Start the later one 5 s later or more, or shorten the one before.", finding.Help);
        Assert.Equal(104 + 105, finding.Happens!.Times); // 731 days from a Sunday on
    }

    [Fact]
    public void A_repeat_that_leaves_no_gap_is_found_at_its_line()
    {
        var finding = Assert.Single(Found("change-over gap 5 s",
            "schedule second { on sat; start at 12:00; repeat every 10 min for 3 passes; steps { water b, d for 297 s } }"));
        Assert.Equal("repeat every 10 min for 3 passes", finding.Primary.Location.Text);
        Assert.Equal("supply tap has 1 s between two waterings, needs 5 s", finding.Heading);
    }

    /// <summary>The first pass has its time for a until 06:10, but the other keeps its valve open: nothing closes when b opens.</summary>
    [Theory]
    [InlineData("06:05", 0)]
    [InlineData("06:10", 0)]
    [InlineData("05:55", 1)]
    public void A_valve_that_another_pass_keeps_open_has_not_stopped(string start, int findings) => Assert.Equal(
        findings,
        Found(
            "change-over gap 5 s",
            $"schedule third {{ every day; start at {start}; steps {{ water a for 10 min }} }}\n"
                + "schedule second { on sat; start at 06:10; steps { water b for 1 min } }").Length);

    [Fact]
    public void Two_schedules_that_open_a_valve_too_soon_are_both_reported() => Assert.Equal(
        ["06:10:02", "06:10:02"],
        Found(
            "change-over gap 5 s",
            """
            schedule second { on sat; start at 06:10:02; steps { water b for 10 s } }
            schedule third { on sat; start at 06:10:02; steps { water b for 1 min } }
            """).Select(finding => finding.Primary.Location.Text));

    [Fact]
    public void A_gap_inside_a_pass_is_part_of_the_plan() =>
        Assert.Empty(Found("change-over gap 5 s", "schedule second { on sat; start at 12:00; steps { water a, b, d for 5 min } }"));

    /// <summary>
    /// The gap of the main line stands between its branches too, and between a branch with a shorter one of its own and another; inside that branch its own
    /// holds. A tank is filled when it needs to be, so that its zones do not draw from the main line.
    /// </summary>
    [Theory]
    [InlineData("change-over gap 20 s", "", "", "b", "06:10:19", 1)]
    [InlineData("change-over gap 20 s", "", "", "b", "06:10:20", 0)]
    [InlineData("change-over gap 20 s", "change-over gap 5 s", "", "c", "06:10:05", 0)]
    [InlineData("change-over gap 20 s", "change-over gap 5 s", "", "c", "06:10:04", 1)]
    [InlineData("change-over gap 20 s", "change-over gap 5 s", "", "b", "06:10:05", 1)]
    [InlineData("change-over gap 20 s", "change-over overlap 2 s", "", "c", "06:10", 0)]
    [InlineData("change-over gap 20 s", "", "change-over gap 1 min", "b", "06:10:19", 1)]
    [InlineData("change-over gap 20 s", "", "change-over gap 1 min", "b", "06:10:20", 0)]
    [InlineData("change-over gap 20 s", "", "tank 1 m3", "b", "06:10", 0)]
    [InlineData("change-over gap 20 s", "tank 1 m3", "", "b", "06:10", 0)]
    [InlineData("change-over overlap 2 s", "", "", "b", "06:10", 0)]
    public void The_gap_of_a_feeder_is_that_between_its_branches(string main, string left, string right, string zone, string start, int findings)
    {
        var found = Lint.Of(
            $$"""
            site plot { timezone UTC; effective 2026-03-01 }
            supply main { {{main}} }
            supply left { fed-by main; {{left}} }
            supply right { fed-by main; {{right}} }
            zone a { output 1; supply left }
            zone b { output 2; supply right }
            zone c { output 3; supply left }
            schedule first { every day; start at 06:00; steps { water a for 10 min } }
            schedule second { every day; start at {{start}}; steps { water {{zone}} for 1 min } }
            """,
            "change-over-too-short");
        Assert.Equal(findings, found.Length);
        Assert.All(found, finding => Assert.StartsWith(zone == "c" ? "supply left has" : "supply main has", finding.Heading, StringComparison.Ordinal));
    }

    private static Finding[] Found(string change, string schedule) => Lint.Of(
        $$"""
        site plot { timezone UTC; effective 2026-03-01 }
        supply tap { {{change}} }
        supply well { {{change}} }
        zone a { output 1; supply tap }
        zone b { output 2; supply tap }
        zone c { output 3; supply well }
        zone d { output 4; supply tap }
        schedule first { every day; start at 06:00; steps { water a for 10 min } }
        {{schedule}}
        """,
        "change-over-too-short");
}
