using Xunit;

namespace WaterScript.Tests.Linting.Rules.Time;

/// <summary>
/// Doses into the pieces of a cycle, by hand: each piece is dosed but for 5 min of water before and after. 40 min are four pieces of 10 min, dosed 20 min
/// in all.
/// </summary>
public class DoseInCycleTests
{
    [Theory]
    [InlineData(100, null)]
    [InlineData(75, null)] // 30 min, 3 pieces of 10 min: 15 min, three quarters
    [InlineData(76, null)] // 30 min 24 s, 4 pieces of 7 min 36 s: 10 min 24 s
    [InlineData(50, "10 min in place of 20 min")] // 20 min, 2 pieces of 10 min
    [InlineData(55, "7 min in place of 20 min")] // 22 min, 3 pieces of 7 min 20 s: 7 min
    [InlineData(200, "40 min in place of 20 min")]
    [InlineData(190, null)] // 76 min, 8 pieces of 9 min 30 s: 36 min
    public void Scale_splits_a_cycle_into_fewer_doses(int scale, string? words)
    {
        var found = Lint.Of(
            $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            zone beds { output 1 }
            injector feeder { output 2; zones beds; after 2 min; rinse 3 min }
            schedule feeding { on mon; scale {{scale}} %; start at 06:00; steps { cycle 10 min soak 20 min { water beds for 40 min through feeder } } }
            """,
            "scaled-dose");
        if (words is null) Assert.Empty(found);
        else Assert.Equal($"injector feeder doses into zone beds for {words}", Assert.Single(found).Heading);
    }

    /// <summary>All pieces of a flush together are what is written; one of them alone would be a quarter of it.</summary>
    [Theory]
    [InlineData(100, 0)]
    [InlineData(51, 0)]
    [InlineData(50, 1)]
    [InlineData(199, 0)]
    [InlineData(200, 1)]
    public void A_flush_in_pieces_counts_as_one(int scale, int findings)
    {
        foreach (var soak in new[] { "soak 30 s", "soak 1 h" })
        {
            var found = Lint.Of(
                $$"""
                site plot { timezone Etc/UTC; effective 2026-03-01 }
                zone filter { output 1; plants none; method drip }
                schedule flush { on mon; scale {{scale}} %; start at 06:00; steps { cycle 25 s {{soak}} { water filter for 100 s } } }
                """,
                "scaled-dose");
            Assert.Equal(findings, found.Length);
            Assert.All(found, finding => Assert.Equal(105, finding.Happens!.Times)); // Mondays in 731 days from a Sunday on
        }
    }
}
