using WaterScript.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>
/// Waiting for one's turn, by sums that can be done in the head: n outputs that are due together, s apart, have the last of them wait (n − 1) · s.
/// </summary>
public class SwitchedLateTests
{
    private const string Valves = """
        valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage 7 V }
        valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 19 V }
        """;

    [Fact]
    public void The_last_of_four_opens_three_staggers_late_and_closes_in_time()
    {
        var finding = Assert.Single(Found("30 s", "ac24", "start at 06:00; steps { water a + b + c + d for 3 min }"));
        Assert.Equal("outputs of controller box wait too long for their turn", finding.Heading);
        Assert.Contains("d opens 1 min 30 s late and closes in time; it is on for 1 min 30 s instead of 3 min.", finding.Details, StringComparison.Ordinal);
    }

    /// <summary>b waits 30 s of its 180: more than a tenth, so it counts with c and d; a waits for nobody.</summary>
    [Fact]
    public void Each_opening_that_is_off_counts_once() =>
        Assert.Equal(3 * 731, Found("30 s", "ac24", "start at 06:00; steps { water a + b + c + d for 3 min }")[0].Happens!.Times);

    /// <summary>A tenth of 200 s is 20 s, which b waits at 20 s and not at 19 s.</summary>
    [Theory]
    [InlineData("20 s", 1)]
    [InlineData("19 s", 0)]
    public void A_tenth_is_much(string stagger, int findings) =>
        Assert.Equal(findings, Found(stagger, "ac24", "start at 06:00; steps { water a + b for 200 s }").Length);

    /// <summary>Half of a mist of 8 s is less than a valve takes by itself; 5 s are not.</summary>
    [Theory]
    [InlineData("4 s", 0)]
    [InlineData("5 s", 1)]
    public void Less_than_a_slow_valve_takes_is_not_much(string stagger, int findings) =>
        Assert.Equal(findings, Found(stagger, "ac24", "start at 06:00; steps { water a + b for 8 s }").Length);

    /// <summary>The third waits 62 s of two hours: under a tenth, but over a minute.</summary>
    [Theory]
    [InlineData("31 s", 1)]
    [InlineData("30 s", 0)]
    public void Over_a_minute_is_late_however_long_the_watering(string stagger, int findings) =>
        Assert.Equal(findings, Found(stagger, "ac24", "start at 06:00; steps { water a + b + c for 2 h }").Length);

    /// <summary>A pulse closes a latching valve in its turn: all four wait as long at the end as at the beginning, and none gets less.</summary>
    [Fact]
    public void Latching_valves_that_wait_alike_at_both_ends_are_not_off() =>
        Assert.Empty(Found("15 s", "click", "start at 06:00; steps { water a + b + c + d for 3 min }"));

    /// <summary>
    /// Every 20 s one closes and one opens, which takes 24 s at 12 s apart: each waits 4 s longer than the one before, until it is over a minute.
    /// </summary>
    [Fact]
    public void More_than_the_stagger_lets_through_piles_up()
    {
        var finding = Assert.Single(Found("12 s", "click", "start at 06:00; steps { repeat 10 times { water a, b for 20 s } }"));
        Assert.Contains("opens 1 min 24 s late and closes 1 min 16 s late", finding.Details, StringComparison.Ordinal);
    }

    /// <summary>One valve after the other, at the stagger that their capacitor needs, is what a stagger is for.</summary>
    [Fact]
    public void One_after_the_other_is_as_it_should_be() => Assert.Empty(Found("1500 ms", "click", "start at 06:00; steps { water a, b, c, d for 10 min }"));

    [Fact]
    public void A_manual_schedule_is_looked_at_too() =>
        Assert.Equal(
            [
                "Longest wait at its start: d opens 1 min 30 s late and closes in time; it is on for 1 min 30 s instead of 3 min.",
                "In each pass of morning: first at its start; 3 times.",
            ],
            FindingText.Facts(Assert.Single(Found("30 s", "ac24", "manual; steps { water a + b + c + d for 3 min }", days: ""))));

    [Fact]
    public void Without_a_stagger_nothing_waits() => Assert.Empty(Found("0 s", "ac24", "start at 06:00; steps { water a + b + c + d for 3 min }"));

    private static WaterScript.Diagnostics.Finding[] Found(string stagger, string valve, string schedule, string days = "every day; ") => Lint.Of($$"""
        site plot { timezone Europe/Lisbon; effective 2026-03-01 }
        controller box { outputs 4; stagger {{stagger}} }
        {{Valves}}
        zone a { output 1; valve {{valve}} }
        zone b { output 2; valve {{valve}} }
        zone c { output 3; valve {{valve}} }
        zone d { output 4; valve {{valve}} }
        schedule morning { {{days}}{{schedule}} }
        """, "switched-late");
}
