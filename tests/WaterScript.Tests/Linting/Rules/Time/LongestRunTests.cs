using Xunit;

namespace WaterScript.Tests.Linting.Rules.Time;

public class LongestRunTests
{
    /// <summary>
    /// At 105 % a cycle of 20 min is cut into three pieces of 7 min, at 100 % into two of 10 min: the longest run is not that of the longest pass.
    /// </summary>
    [Fact]
    public void The_longest_run_is_found_though_the_longest_pass_has_shorter_ones()
    {
        var finding = Assert.Single(Lint.Of(
            """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone lawn { output 1; longest 8 min }
            scale year { jul 105 % }
            schedule morning {
              on mon
              start at 06:00
              scale year
              steps { cycle 10 min soak 30 min { water lawn for 20 min } }
            }
            """,
            "longer-than-longest"));
        Assert.Equal(6, finding.Happens!.First.Hour);
    }
}
