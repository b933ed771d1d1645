using WaterScript.Documents.Reports;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Water;

/// <summary>Sums of flow against what supplies give, and what is exempt.</summary>
public class FlowTests
{
    private static string Site(string supply, string schedules) =>
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        {{supply}}
        zone lawn { output 1; flow 16 L/min }
        zone beds { output 2; flow 10 L/min }
        zone pots { output 3; emitters 6 at 4 L/h }
        {{schedules}}
        """;

    [Theory]
    [InlineData("flow 25 L/min", "lawn + beds", true)]
    [InlineData("flow 26 L/min", "lawn + beds", false)]
    [InlineData("flow 26 L/min", "lawn + beds + pots", true)]
    [InlineData("flow 26.4 L/min", "lawn + beds + pots", false)]
    [InlineData("flow 25 L/min", "lawn, beds", false)]
    [InlineData("flow 25 L/min; change-over gap 5 s", "lawn, beds", false)]
    [InlineData("flow 25 L/min; change-over overlap 5 s", "lawn, beds", false)]
    public void Zones_together_are_compared_with_the_supply(string supply, string zones, bool isOver) =>
        Assert.Equal(isOver, Lint.Of(Site($"supply tap {{ {supply} }}", $"schedule s {{ every day; start at 06:00; steps {{ water {zones} for 10 min }} }}"),
            "flow-over-supply").Length == 1);

    [Fact]
    public void Two_schedules_that_meet_are_one_finding_with_the_first_moment_and_the_count()
    {
        var finding = Assert.Single(Lint.Of(
            Site(
                "supply tap { flow 25 L/min }",
                """
                schedule one { on mon; start at 06:00; steps { water lawn for 10 min } }
                schedule two { every day; start at 06:05; steps { water beds for 10 min } }
                """),
            "flow-over-supply"));

        Assert.Equal("zones need 26.0 L/min at once, supply tap gives 25.0", finding.Heading);
        Assert.Equal("needs 26.0 L/min", finding.Primary.Text);
        Assert.Equal("lawn 16.0 + beds 10.0 = 26.0 L/min: 1.0 L/min too much.", finding.Details);
        Assert.Contains(finding.Others, label => label.Text == "gives 25.0 L/min");
        Assert.Equal("First Mon 2 Mar 2026 06:05; 104 times; last Mon 21 Feb 2028 06:05.",
            MomentWords.When(finding.Happens! with { Times = 104, Days = 104, Last = new(2028, 2, 21, 6, 5), IsStill = false }));
        Assert.Equal(finding.Happens!.Days, finding.Happens.Times);
    }

    [Theory]
    [InlineData("supply main { flow 20 L/min }\nsupply tap { flow 30 L/min; fed-by main }", true)]
    [InlineData("supply main { flow 20 L/min }\nsupply tap { flow 30 L/min; fed-by main; tank 1 m3 }", false)]
    public void What_feeds_a_supply_gives_its_water_too_unless_a_tank_stands_between(string supplies, bool isOver)
    {
        var text = Site(supplies, "schedule s { every day; start at 06:00; steps { water lawn + beds for 10 min } }")
            .Replace("flow 16 L/min }", "flow 16 L/min; supply tap }", StringComparison.Ordinal)
            .Replace("flow 10 L/min }", "flow 10 L/min; supply tap }", StringComparison.Ordinal)
            .Replace("4 L/h }", "4 L/h; supply tap }", StringComparison.Ordinal);

        Assert.Equal(isOver ? 1 : 0, Lint.Of(text, "flow-over-supply").Length);
    }

    [Fact]
    public void A_manual_schedule_is_reported_without_a_date()
    {
        var finding = Assert.Single(Lint.Of(
            Site("supply tap { flow 25 L/min }", "schedule walk { manual; steps { water pots for 5 min\n water lawn + beds for 90 s } }"), "flow-over-supply"));

        Assert.Null(finding.Happens);
        Assert.Equal(
            ["lawn 16.0 + beds 10.0 = 26.0 L/min: 1.0 L/min too much.", "In each pass of walk, 5 min after its start."],
            FindingText.Facts(finding));
    }

    [Theory]
    [InlineData("minimum-flow 8 L/min", "pots for 11 s", true)]
    [InlineData("minimum-flow 8 L/min", "pots for 10 s", false)]
    [InlineData("minimum-flow 8 L/min; bypass", "pots for 11 s", false)]
    [InlineData("minimum-flow 8 L/min; pressure-tank 24 L from 2 bar to 3.5 bar", "pots for 11 s", false)]
    [InlineData("minimum-flow 8 L/min; pressure-tank 24 L", "pots for 11 s", true)]
    [InlineData("minimum-flow 8 L/min", "pots + beds for 11 s", false)]
    public void Less_than_the_minimum_is_borne_for_ten_seconds(string supply, string water, bool isUnder) =>
        Assert.Equal(isUnder,
            Lint.Of(Site($"supply well {{ flow 30 L/min; {supply} }}", $"schedule s {{ every day; start at 06:00; steps {{ water {water} }} }}"),
            "flow-under-minimum").Length == 1);

    [Fact]
    public void A_day_ends_at_local_midnight()
    {
        const string Schedule = "schedule s { on mon; start at 23:45; steps { water lawn for 30 min } }";

        Assert.Empty(Lint.Of(Site("supply well { flow 30 L/min; daily 240 L }", Schedule), "daily-volume"));
        var finding = Assert.Single(Lint.Of(Site("supply well { flow 30 L/min; daily 239 L }", Schedule), "daily-volume"));
        Assert.Equal("zone lawn needs 240 L in a day, supply well gives 239 L", finding.Heading);
        Assert.Equal("the limit", finding.Primary.Text);
        Assert.Equal("Most on Mon 2 Mar 2026: lawn 240 L.", finding.Details);
        Assert.True(finding.Happens is { IsWholeDays: true, First.Day: 2 });
    }

    [Theory]
    [InlineData("2", "lawn + beds + pots", true)]
    [InlineData("3", "lawn + beds + pots", false)]
    [InlineData("1", "lawn, beds, pots", false)]
    public void Zones_of_a_controller_are_counted(string most, string zones, bool isOver) =>
        Assert.Equal(isOver,
            Lint.Of(Site($"controller box {{ outputs 4; at most {most} zones }}",
            $"schedule s {{ every day; start at 06:00; steps {{ water {zones} for 10 min }} }}"), "too-many-zones").Length == 1);

    [Fact]
    public void What_is_not_known_is_said()
    {
        var notChecked = Lint.NotChecked(
            """
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            supply tap { flow 25 L/min }
            supply well { tank 2 m3 }
            zone lawn { output 1; supply tap }
            schedule s { every day; start at 06:00; steps { water lawn for 10 min } }
            """);

        Assert.Contains("flow of zone lawn (add flow)", notChecked);
        Assert.Contains("flow of supply well (add flow)", notChecked);
    }
}
