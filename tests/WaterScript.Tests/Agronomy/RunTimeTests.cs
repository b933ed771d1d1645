using FsCheck.Xunit;
using WaterScript.Agronomy;
using Xunit;

namespace WaterScript.Tests.Agronomy;

/// <summary>Depth, rate and run time against worked examples; the source stands beside each.</summary>
public sealed class RunTimeTests
{
    /// <summary>Worked out from the formula: minutes = 60 · depth / (rate · efficiency).</summary>
    [Theory]
    [InlineData(20, 40, 80, 37.5)]
    [InlineData(12, 40, 100, 18)]
    [InlineData(12.7, 38.1, 100, 20)] // 0.50 in at 1.5 in/h
    public void Minutes_for_a_depth(decimal millimetres, decimal millimetresPerHour, decimal efficiency, decimal minutes) =>
        Assert.Equal(minutes, RunTime.SecondsForDepth(millimetres, millimetresPerHour, efficiency) / 60, 20);

    /// <summary>Worked out from the formula of the Irrigation Association: 1 / (0.4 + 0.6 DU).</summary>
    [Theory]
    [InlineData(50, 1.429)]
    [InlineData(60, 1.316)]
    [InlineData(70, 1.220)]
    [InlineData(80, 1.136)]
    [InlineData(100, 1.000)]
    public void Run_time_multiplier(decimal uniformity, decimal multiplier) =>
        Assert.Equal(multiplier, Math.Round(Uniformity.RunTimeMultiplier(uniformity), 3));

    /// <summary>Worked out: mm/h = 60 · (L/min) / m², in/h = 96.25 · gpm / ft² (231 · 60 / 144, exact).</summary>
    [Theory]
    [InlineData("flow 20 L/min; area 60 m2", 20.0)]
    [InlineData("flow 12 gpm; area 2000 ft2", 14.67)] // 0.5775 in/h
    public void Application_rate(string water, decimal millimetresPerHour) =>
        Assert.Equal(millimetresPerHour, Math.Round(ZoneOf(water).MillimetresPerHour!.Value, 2));

    [Fact]
    public void Application_rate_in_inches() => Assert.Equal(0.5775m, Math.Round(ZoneOf("flow 12 gpm; area 2000 ft2").MillimetresPerHour!.Value / 25.4m, 10));

    /// <summary>Bucket test, worked out: 10 L in 24 s are 25 L/min.</summary>
    [Fact]
    public void Seconds_for_a_volume() => Assert.Equal(24, RunTime.SecondsForVolume(10, 25));

    [Theory]
    [InlineData("", 100)]
    [InlineData("; efficiency 80 %", 80)]
    [InlineData("; uniformity 70 %", 82)] // 0.4 + 0.6 · 0.7, the reciprocal of 1.220
    public void Efficiency_or_uniformity_but_never_both(string share, decimal percent) =>
        Assert.Equal(percent, Uniformity.ShareThatCounts(ZoneOf($"rate 12 mm/h{share}")));

    /// <summary>
    /// Worked out: rate 40 mm/h, 12 mm, pieces of at most 10 min: 18 min in 2 × 9 min; 20 min in pieces of at most 9.23 min in 3 × 6 min 40 s.
    /// </summary>
    [Theory]
    [InlineData(18 * 60, 600, new long[] { 540, 540 })]
    [InlineData(20 * 60, 553, new long[] { 400, 400, 400 })]
    [InlineData(601, 300, new long[] { 201, 200, 200 })]
    [InlineData(1, 300, new long[] { 1 })]
    public void Fewest_equal_pieces(long seconds, long longest, long[] pieces)
    {
        var count = CycleAndSoak.Pieces(seconds, longest);
        Assert.Equal(pieces, Enumerable.Range(1, (int)count).Select(number => CycleAndSoak.Piece(seconds, count, number)));
    }

    /// <summary>
    /// Worked out from the formulas of the Irrigation Association: 36 mm/h on loam (8.89 mm/h, 7.62 mm may stand) run for 3600 · 7.62 / 27.11 = 1011.8 s, on
    /// clay (2.54 and 5.08) for 546.6 s; 60 s then soak for 60 · 33.46 / 2.54 = 790.4 s on clay. Both together go by the clay.
    /// </summary>
    [Fact]
    public void Zones_that_are_on_together_go_by_the_one_that_runs_off_first()
    {
        var site = Tests.Timetables.Sites.Read(Tests.Timetables.Sites.Garden(
            """
            zone loamy { output 4; rate 36 mm/h; soil loam }
            zone clayey { output 5; rate 36 mm/h; soil clay }
            zone slow { output 6; rate 2 mm/h; soil clay }
            schedule s { every day; start at 05:00; steps { cycle auto { water loamy + clayey + slow for 20 min } } }
            """));
        var cycle = Assert.IsType<Model.CycleStep>(Assert.Single(site.Schedules[0].Steps));
        Model.Zone Named(string name) => site.Zones.Single(zone => zone.Name == name);
        Assert.Equal(1011, CycleAndSoak.LongestPiece(cycle, [Named("loamy")]));
        Assert.Equal(546, CycleAndSoak.LongestPiece(cycle, [Named("loamy"), Named("clayey"), Named("slow")]));
        Assert.Equal((791, 0), (CycleAndSoak.Soak(cycle, Named("clayey"), 60), CycleAndSoak.Soak(cycle, Named("slow"), 60)));
    }

    /// <summary>Worked out: 100 mm/h with 0.01 mm that may stand run off after 0.36 s; a valve knows no less than a second.</summary>
    [Fact]
    public void A_piece_is_never_shorter_than_a_second()
    {
        var site = Tests.Timetables.Sites.Read(Tests.Timetables.Sites.Garden(
            """
            soil slab { intake 1 mm/h; ponds 0.01 mm }
            zone d { output 4; rate 100 mm/h; soil slab }
            zone e { output 5; rate 36 mm/h; soil loam }
            schedule s { every day; start at 05:00; steps { cycle auto { water e for 20 min } } }
            """));
        var cycle = Assert.IsType<Model.CycleStep>(Assert.Single(site.Schedules[0].Steps));
        Assert.Equal(1, CycleAndSoak.LongestPiece(cycle, [site.Zones.Single(zone => zone.Name == "d")]));
    }

    [Fact]
    public void Pieces_sum_to_the_whole_are_equal_and_as_few_as_can_be()
    {
        for (var seconds = 1; seconds <= 400; seconds += 3)
        {
            for (var longest = 1; longest <= 90; longest += 7)
            {
                var count = CycleAndSoak.Pieces(seconds, longest);
                var pieces = Enumerable.Range(1, (int)count).Select(number => CycleAndSoak.Piece(seconds, count, number)).ToList();
                Assert.Equal(seconds, pieces.Sum());
                Assert.True(pieces[0] <= longest && pieces[0] - pieces[^1] <= 1 && pieces.SequenceEqual(pieces.OrderDescending()));
                Assert.True(count == 1 || seconds > (count - 1) * longest);
            }
        }
    }

    /// <summary>Twice the ground at the same flow needs twice the time for a depth.</summary>
    [Property]
    public void Doubling_the_area_doubles_the_time_for_a_depth(ushort flow, ushort area, ushort depth, byte efficiency)
    {
        decimal SecondsOn(decimal squareMetres) =>
            RunTime.SecondsForDepth(0.1m + (depth / 100m), 60 * (0.1m + (flow / 50m)) / squareMetres, 1 + (efficiency % 100));
        var ground = 0.5m + (area / 10m);
        Assert.Equal(2 * SecondsOn(ground), SecondsOn(2 * ground), 9);
    }

    [Property]
    public void Pieces_of_any_cycle_sum_to_the_whole(ushort seconds, ushort longest)
    {
        var count = CycleAndSoak.Pieces(1 + seconds, 1 + longest);
        Assert.Equal(1 + seconds, Enumerable.Range(1, (int)count).Sum(number => CycleAndSoak.Piece(1 + seconds, count, number)));
    }

    [Fact]
    public void What_would_take_for_ever_is_bounded()
    {
        Assert.Equal(RunTime.Longest, RunTime.SecondsForDepth(decimal.MaxValue, 0.0000000000000000000000000001m, 0.0000000000000000000000000001m));
        Assert.Equal(RunTime.Longest, RunTime.SecondsForVolume(decimal.MaxValue, 0));
        // 60 · 2e11 / 6 are 2e12 s; 60 · 0.9e11 / 6 and 3600 · 1e8 · 100 / (1 · 50) are below 1e12.
        Assert.Equal(RunTime.Longest, RunTime.SecondsForVolume(200_000_000_000, 6));
        Assert.Equal(900_000_000_000, RunTime.SecondsForVolume(90_000_000_000, 6));
        Assert.Equal(720_000_000_000, RunTime.SecondsForDepth(100_000_000, 1, 50));
    }

    private static Model.Zone ZoneOf(string water) =>
        Tests.Timetables.Sites.Read(Tests.Timetables.Sites.Garden($"zone d {{ output 4; {water} }}")).Zones.Single(zone => zone.Name == "d");
}
