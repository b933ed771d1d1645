using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Timetables;

/// <summary>What stands between waterings of branches that one supply feeds. Starts are worked out by hand.</summary>
public class FeederChangeTests
{
    [Theory]
    [InlineData("main { change-over gap 20 s }", "left { fed-by main }", "right { fed-by main }", "0 620 1240")]
    [InlineData("main { change-over gap 20 s }", "left { fed-by main }", "right { fed-by main; tank 1 m3; refill 30 L/min }", "0 600 1200")]
    [InlineData("main { change-over gap 20 s }", "left { fed-by main; change-over gap 5 s }", "right { fed-by main }", "0 620 1240")]
    [InlineData("main { flow 60 L/min }", "left { fed-by main; change-over gap 5 s }", "right { fed-by main }", "0 600 1200")]
    public void The_change_over_of_a_feeder_stands_between_its_branches(string feeder, string left, string right, string starts)
    {
        var site = $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            supply {{feeder}}
            supply {{left}}
            supply {{right}}
            zone a { output 1; supply left; flow 6 L/min }
            zone b { output 2; supply right; flow 6 L/min }
            schedule s { every day; start at 00:00; steps { water a, b, a for 10 min } }
            """;

        Assert.Equal(starts, string.Join(' ', StartsOf(site)));
    }

    /// <summary>Of one branch its own holds between its zones, the feeder's to the other branch.</summary>
    [Fact]
    public void Of_several_the_nearest_holds()
    {
        const string site = """
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            supply main { change-over gap 20 s }
            supply left { fed-by main; change-over gap 5 s }
            supply right { fed-by main }
            zone a { output 1; supply left; flow 6 L/min }
            zone b { output 2; supply left; flow 6 L/min }
            zone c { output 3; supply right; flow 6 L/min }
            schedule s { every day; start at 00:00; steps { water a, b, c for 10 min } }
            """;

        Assert.Equal("0 605 1225", string.Join(' ', StartsOf(site)));
    }

    private static IEnumerable<long> StartsOf(string text)
    {
        var site = Sites.Read(text);
        Run[] runs = [.. Timetable.Of(site, Horizon.DaysFrom(site.Effective, 1)).Runs()];
        return runs.Select(run => run.Start - runs[0].Start).Take(3);
    }
}
