using System.Globalization;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Time;

/// <summary>A pass lasts from its first watering to the end of its last, with what lies between.</summary>
public class SchedulesOverlapTests
{
    [Theory]
    [InlineData("06:04", "06:04")]
    [InlineData("06:10", "06:10")] // while the first one pauses, and over before it goes on
    [InlineData("05:59", "06:00")]
    [InlineData("06:40", null)]
    [InlineData("05:58", null)]
    public void A_schedule_that_runs_while_another_pauses_overlaps_it(string start, string? first)
    {
        var source =
            $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            controller box { outputs 4; schedules never-overlap }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule one { every day; start at 06:00; steps { water beds for 5 min; pause 30 min; water beds for 5 min } }
            schedule two { every day; start at {{start}}; steps { water lawn for 2 min } }
            """;

        var found = Lint.Of(source, "schedules-overlap");
        Assert.Equal(first is null ? [] : [$"{first}, 731 times"],
            found.Select(finding => $"{finding.Happens!.First.ToString("HH:mm", CultureInfo.InvariantCulture)}, {finding.Happens.Times} times"));
    }

    /// <summary>They meet where they may, and share another controller at different times.</summary>
    [Fact]
    public void What_one_controller_may_do_does_not_clash_with_another() => Assert.Empty(Lint.Of(
        """
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller box { outputs 4; schedules may-overlap }
        controller shed { outputs 4; schedules never-overlap }
        zone beds { output 1 of box }
        zone lawn { output 2 of box }
        zone pots { output 1 of shed }
        schedule one { every day; start at 06:00; steps { water beds for 5 min; water pots for 5 min } }
        schedule two { every day; start at 06:00; steps { water lawn for 15 min; water pots for 5 min } }
        """,
        "schedules-overlap"));
}
