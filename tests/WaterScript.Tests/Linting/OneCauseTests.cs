using WaterScript.Diagnostics;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>What has one cause is one finding, and the numbers of a finding go with the moment beside them.</summary>
public class OneCauseTests
{
    [Theory]
    [InlineData("6:70")]
    [InlineData("06:70")]
    [InlineData("6:00:60")]
    [InlineData("6:70 pm")]
    [InlineData("6:70pm")]
    [InlineData("25:00")]
    public void A_time_that_no_clock_shows_is_one_mistake(string time)
    {
        var finding = Assert.Single(Expect.Read("site s { timezone Etc/UTC; effective 2026-03-01 }\nzone beds { output 1 }\n"
            + $"schedule one {{ every day; start at {time}; steps {{ water beds for 10 min }} }}\n").Findings);
        Assert.Equal(Severity.Error, finding.Severity);
    }

    [Fact]
    public void A_pass_that_begins_too_soon_is_not_reported_as_a_change_too_close_as_well()
    {
        // The pass of 06:10 waters the lawn from 06:30:30, 20 s after that of 06:00 is over.
        var found = Lint.Of(
            """
            site s { timezone Etc/UTC; effective 2026-03-01 }
            supply tap { change-over gap 30 s }
            zone beds { output 1 }
            zone lawn { output 2 }
            zone pots { output 3 }
            schedule morning {
              every day
              start at 06:00
              repeat every 10 min for 3 passes
              steps { water beds for 10 min; water lawn for 10 min; water pots for 550 s }
            }
            """).Findings;
        Assert.Equal(["pass-overlap"], found.Select(finding => finding.Rule.Slug));
    }

    /// <summary>A and B want 30 L/min of 25 first; from 06:20 on, with C, 39.</summary>
    [Theory]
    [InlineData("on sat; start at 06:20", "needs up to 39.0 L/min", "Most on Sat 7 Mar 2026 06:20: a 20.0 + b 10.0 + c 9.0 = 39.0 L/min: 14.0 L/min too much.")]
    [InlineData("on sat; start at 05:00", "needs 30.0 L/min", "a 20.0 + b 10.0 = 30.0 L/min: 5.0 L/min too much.")]
    public void A_sum_that_differs_is_said_as_the_most(string third, string label, string sum)
    {
        var finding = Assert.Single(Lint.Of(
            $$"""
            site s { timezone Etc/UTC; effective 2026-03-01 }
            supply tap { flow 25 L/min }
            zone a { output 1; flow 20 L/min }
            zone b { output 2; flow 10 L/min }
            zone c { output 3; flow 9 L/min }
            schedule one { every day; start at 06:00; steps { water a for 1 h } }
            schedule two { every day; start at 06:10; steps { water b for 1 h } }
            schedule three { {{third}}; steps { water c for 10 min } }
            """,
            "flow-over-supply"));
        Assert.Equal(label, finding.Primary.Text);
        Assert.Equal(sum, finding.Details);
    }

    [Theory]
    [InlineData("06:10", "10 min")]
    [InlineData("06:19", "1 min")]
    public void A_zone_watered_twice_is_watered_once_when_the_later_schedule_starts_as_much_later_as_is_said(string start, string later)
    {
        string Site(string second) =>
            $$"""
            site s { timezone Etc/UTC; effective 2026-03-01 }
            zone beds { output 1 }
            schedule one { every day; start at 06:00; steps { water beds for 20 min } }
            schedule two { on sat; start at {{second}}; steps { water beds for 5 min } }
            """;
        Assert.StartsWith($"Start two {later} later", Assert.Single(Lint.Of(Site(start), "zone-twice")).Help, StringComparison.Ordinal);
        Assert.Empty(Lint.Of(Site("06:20"), "zone-twice"));
    }
}
