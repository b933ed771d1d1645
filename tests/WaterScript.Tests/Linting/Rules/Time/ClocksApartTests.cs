using Xunit;

namespace WaterScript.Tests.Linting.Rules.Time;

/// <summary>Hand-overs between controllers, each with a clock of its own.</summary>
public class ClocksApartTests
{
    [Theory]
    [InlineData("06:10", 1)]
    [InlineData("06:10:49", 1)]
    [InlineData("06:10:50", 0)] // 20 s and 30 s apart at most
    [InlineData("06:09:30", 0)] // no hand-over: both are open for a while
    public void What_is_closer_than_the_clocks_is_found(string start, int findings) => Assert.Equal(findings, Lint.Of(Site(start), "clocks-apart").Length);

    [Fact]
    public void Zones_that_the_supply_can_feed_together_may_meet() =>
        Assert.Empty(Lint.Of(Site("06:10").Replace("flow 20 L/min", "flow 30 L/min", System.StringComparison.Ordinal), "clocks-apart"));

    [Fact]
    public void One_controller_has_one_clock() =>
        Assert.Empty(Lint.Of(Site("06:10").Replace("output 1 of wall", "output 2 of shed", System.StringComparison.Ordinal), "clocks-apart"));

    [Fact]
    public void A_clock_of_which_nothing_is_known_is_said()
    {
        var report = Lint.Of(Site("06:10").Replace("controller wall { clock within 30 s }", "controller wall { }", System.StringComparison.Ordinal));
        Assert.DoesNotContain(report.Findings, finding => finding.Rule.Slug == "clocks-apart");
        Assert.Contains(report.NotChecked, gap => gap.Sentence == "hand-overs of controller wall (add clock)");
    }

    private static string Site(string start) =>
        $$"""
        site plot { timezone Europe/Lisbon; effective 2026-03-01 }
        supply tap { flow 20 L/min }
        controller shed { clock within 20 s }
        controller wall { clock within 30 s }
        zone beds { output 1 of shed; flow 15 L/min }
        zone lawn { output 1 of wall; flow 15 L/min }
        schedule first { every day; start at 06:00; steps { water beds for 10 min } }
        schedule second { every day; start at {{start}}; steps { water lawn for 10 min } }
        """;
}
