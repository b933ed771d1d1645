using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Agronomy;

/// <summary>Soil, runoff and the balance of water, against worked numbers; the source stands beside each.</summary>
public sealed class SoilWaterTests
{
    /// <summary>
    /// Worked out from the formulas of the Irrigation Association: rate 40, intake 10 mm/h, 5 mm may stand: 10 min; a run of 9 min soaks for 27 min.
    /// </summary>
    [Fact]
    public void Longest_run_and_least_soak()
    {
        var ground = new Infiltration(40, 10, 5);
        Assert.Equal(600, ground.LongestRun);
        Assert.Equal(27 * 60, ground.LeastSoak(9 * 60));
        Assert.Equal(0, new Infiltration(10, 10, 5).LeastSoak(9 * 60));
    }

    /// <summary>Worked out: 1.5 in/h on 0.20 in/h with 0.20 in: 9.23 min; a run of 6 min 40 s soaks for 43.3 min.</summary>
    [Fact]
    public void Longest_run_and_least_soak_in_inches()
    {
        var ground = new Infiltration(1.5m * 25.4m, 0.20m * 25.4m, 0.20m * 25.4m);
        Assert.Equal(9.23m, Math.Round(ground.LongestRun!.Value / 60, 2));
        Assert.Equal(43.3m, Math.Round(ground.LeastSoak(400) / 60, 1));
        Assert.Equal((553, 2600), (ground.LongestWholeRun, ground.LeastWholeSoak(400)));
    }

    [Theory]
    [InlineData("rate 8 mm/h; soil loam", true)] // loam takes in 0.35 in/h, 8.89 mm/h
    [InlineData("rate 9 mm/h; soil loam", false)]
    [InlineData("rate 200 mm/h; method drip", true)]
    public void What_the_soil_takes_in_never_runs_off(string zone, bool never) => Assert.Equal(never, Infiltration.Of(ZoneOf(zone))!.Value.LongestRun is null);

    [Theory]
    [InlineData("soil loam")]
    [InlineData("rate 9 mm/h")]
    [InlineData("flow 9 L/min; soil loam")]
    public void Without_soil_or_rate_nothing_is_known(string zone) => Assert.Null(Infiltration.Of(ZoneOf(zone)));

    /// <summary>Irrigation Association, 2005 (from memory): what may stand on a soil, in inches, at slopes of 0–3, 4–6, 7–12 and 13 % or more.</summary>
    [Theory]
    [InlineData("clay", 0, 0.20)]
    [InlineData("clay", 3, 0.20)]
    [InlineData("clay", 3.5, 0.15)]
    [InlineData("loam", 6, 0.25)]
    [InlineData("loam", 9, 0.21)]
    [InlineData("loam", 12, 0.21)]
    [InlineData("sand", 13, 0.25)]
    [InlineData("sandy-loam", 60, 0.20)]
    public void What_may_stand_on_a_slope(string soil, decimal slope, decimal inches) =>
        Assert.Equal(inches, SoilTable.All.Single(known => known.Name == soil).PondsOn(slope)!.Value.Value);

    /// <summary>
    /// FAO Irrigation Water Management Training Manual 5, 1988, annex 2, gives ranges of intake in mm/h. The built-in soils stay in them or, for the
    /// lighter soils, on the careful side: a cycle that is too short does no harm, one that is too long runs off.
    /// </summary>
    [Theory]
    [InlineData("sandy-loam", 20, 30, false)]
    [InlineData("loam", 10, 20, false)]
    [InlineData("clay-loam", 5, 10, true)]
    [InlineData("clay", 1, 5, true)]
    public void Intake_is_never_over_the_ranges_of_a_field_manual(string soil, decimal least, decimal most, bool isInRange)
    {
        var intake = SoilTable.All.Single(known => known.Name == soil).Intake!.Value.InBase;
        Assert.InRange(intake, isInRange ? least : least / 2, most);
        Assert.Equal(isInRange, intake >= least);
    }

    /// <summary>FAO 56, table 19 (from memory): the middle of the range, in mm/m.</summary>
    [Theory]
    [InlineData("sand", 80)]
    [InlineData("sandy-loam", 130)]
    [InlineData("loam", 155)]
    [InlineData("silt-loam", 160)]
    [InlineData("silty-clay", 160)]
    [InlineData("clay", 160)]
    public void Water_held(string soil, decimal millimetres) =>
        Assert.Equal(millimetres, SoilTable.All.Single(known => known.Name == soil).Holds!.Value.InBase);

    /// <summary>FAO 56, tables 12 (full growth) and 22 (the lesser depth).</summary>
    [Theory]
    [InlineData("turf-cool", 0.95, 0.5, 40)]
    [InlineData("turf-warm", 0.85, 0.5, 50)]
    [InlineData("tomato", 1.15, 0.7, 40)]
    [InlineData("lettuce", 1.00, 0.3, 30)]
    [InlineData("pepper", 1.05, 0.5, 30)]
    [InlineData("strawberry", 0.85, 0.2, 20)]
    [InlineData("potato", 1.15, 0.4, 35)]
    [InlineData("conifers", 1.00, 1.0, 70)]
    [InlineData("squash", 0.95, 0.6, 50)] // roots and share from memory, as in the next two
    [InlineData("berries", 1.05, 0.6, 50)]
    [InlineData("citrus", 0.65, 1.2, 50)]
    [InlineData("onion", 1.05, 0.3, 30)] // coefficient from memory
    public void Plants_of_the_tables(string name, decimal coefficient, decimal roots, decimal depletion)
    {
        var plants = PlantTable.All.Single(known => known.Name == name);
        Assert.Equal(Enumerable.Repeat<decimal?>(coefficient, 12), plants.Coefficients);
        Assert.Equal((roots, depletion), (plants.Roots!.Value.InBase, plants.DepletionPercent));
    }

    [Fact]
    public void There_are_no_other_plants() => Assert.Equal(12, PlantTable.All.Length);

    [Fact]
    public void What_a_file_says_goes_before_the_tables()
    {
        var zone = ZoneOf("rate 9 mm/h; soil loam; plants turf-cool", "soil loam { intake 12 mm/h; ponds 4 mm }\nplants turf-cool { roots 15 cm }\n");
        Assert.Equal((12, 155, 4), (zone.Soil!.Intake!.Value.InBase, zone.Soil.Holds!.Value.InBase, zone.Soil.PondsOn(30)!.Value.InBase));
        Assert.Equal((0.15m, 40, 0.95m), (zone.Plants!.Roots!.Value.InBase, zone.Plants.DepletionPercent, zone.Plants.Coefficients[0]));
    }

    /// <summary>Worked out: 0.17 in/in, 6 in of roots, half of it, 0.20 in/day are 2 whole days.</summary>
    [Theory]
    [InlineData("25.908", "0.5", "5.08", 2)] // 0.17 · 6 · 25.4 mm; 0.20 · 25.4 mm a day
    [InlineData("60", "0.5", "10", 3)]
    [InlineData("60", "0.5", "10.000001", 2)]
    [InlineData("5", "0.5", "4", 0)]
    [InlineData("0.9", "1", "0.3", 3)] // 2.9999999999999996 in floating point
    [InlineData("36600", "0.01", "1", 366)]
    [InlineData("36599", "0.01", "1", 365)]
    [InlineData("40000", "0.01", "1", 366)]
    public void Days_between_waterings(string total, string share, string demand, int days) =>
        Assert.Equal(days, new RootZone(Exact(total), Exact(share)).IntervalDays(Exact(demand)));

    /// <summary>4 in/ft are a third of an inch in an inch: 2 in in 6 in of roots, half of it five days of 0.2 in.</summary>
    [Fact]
    public void A_third_of_an_inch_is_a_third() => Assert.Equal(
        5, RootZone.Of(ZoneOf("rate 9 mm/h; soil own; plants own", "soil own { holds 4 in/ft }\nplants own { roots 6 in; allowed-depletion 50 % }\n"))!
            .Value.IntervalDays(0.2m * 25.4m));

    private static decimal Exact(string number) => decimal.Parse(number, System.Globalization.CultureInfo.InvariantCulture);

    [Fact]
    public void Where_nothing_is_used_no_day_is_due() => Assert.Null(new RootZone(60, 0.5m).IntervalDays(0));

    /// <summary>Worked out from FAO 56, eq. 82 to 84: 1000 · (0.32 − 0.12) · 0.8 = 160 mm, RAW at p = 0.6 is 96 mm; at Dr = 128 mm Ks = 32 / 64.</summary>
    [Fact]
    public void Available_water_and_stress()
    {
        var zone = RootZone.Of(0.32m, 0.12m, 0.8m, 0.6m);
        Assert.Equal((160, 96), (zone.Total, zone.Readily));
        Assert.Equal([1, 1, 0.5m, 0], new[] { 0m, 96, 128, 160 }.Select(zone.Stress));
    }

    /// <summary>
    /// The bounds of eq. 84 and of RAW: just RAW is not yet stress, a tenth of a millimetre more is; with p = 1 nothing is until all is gone, with p = 0
    /// nothing is at field capacity.
    /// </summary>
    [Fact]
    public void Stress_begins_beyond_what_is_readily_available()
    {
        var zone = new RootZone(30, 0.5m);
        Assert.Equal((false, true), (zone.Next(15, 0, 5).IsStressed, zone.Next(15.1m, 0, 5).IsStressed));
        Assert.Equal(1, new RootZone(60, 1).Stress(60));
        Assert.Equal(5, new RootZone(30, 0).Next(0, 0, 5).Used);
    }

    /// <summary>Worked out from eq. 85 and 88, day by day: 5 mm are used, 20 mm come when 5 are missing, so 15 − 5 run through.</summary>
    [Fact]
    public void A_balance_by_hand()
    {
        var zone = new RootZone(30, 0.5m);
        var first = zone.Next(0, 0, 5);
        var second = zone.Next(first.Depletion, 20, 5);
        var third = zone.Next(second.Depletion, 0, 40);
        Assert.Equal((5, 5, 0, false), (first.Depletion, first.Used, first.Percolation, first.IsStressed));
        Assert.Equal((0, 5, 10, false), (second.Depletion, second.Used, second.Percolation, second.IsStressed));
        Assert.Equal((30, 30, 0), (third.Depletion, third.Used, third.Percolation));
        Assert.True(zone.Next(third.Depletion, 0, 5) is { Used: 0, IsStressed: true });
    }

    /// <summary>Water is neither made nor lost: what comes is used, runs through, or is in the ground.</summary>
    [SampledProperty(400)]
    public void The_balance_conserves_water(ushort total, byte share, (byte Water, byte Demand)[] days)
    {
        var zone = new RootZone(1 + (total / 100m), share / 255m);
        var (depletion, came, left) = (0m, 0m, 0m);
        foreach (var (water, demand) in days)
        {
            var day = zone.Next(depletion, water / 3m, demand / 10m);
            Assert.InRange(day.Depletion, 0, zone.Total);
            Assert.InRange(day.Used, 0, demand / 10m);
            Assert.True(day.Percolation >= 0);
            (came, left, depletion) = (came + (water / 3m), left + day.Used + day.Percolation, day.Depletion);
        }

        Assert.Equal(came, left - depletion, 20);
    }

    private static Zone ZoneOf(string properties, string before = "") =>
        Expect.Fine($"{before}zone d {{ output 4; {properties} }}").Site!.Zones.Single(zone => zone.Name == "d");
}
