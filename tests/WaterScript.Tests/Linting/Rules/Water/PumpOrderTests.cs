using System.Globalization;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Water;

/// <summary>Pumps, masters and clocks second by second, from what a file says and nothing else. A zone is open from 0 to 600 s.</summary>
public class PumpOrderTests
{
    private const int Watering = 600;

    /// <summary>A pump and a master that start and stop before or after the zone: is there a second in which only the pump is on?</summary>
    [Fact]
    public void A_pump_that_is_on_while_its_master_is_closed_is_found()
    {
        int[] sides = [-6, -1, 0, 3];
        foreach (var (pumpStart, pumpStop, masterStart, masterStop) in
            from pumpStart in sides
            from pumpStop in sides
            from masterStart in sides
            from masterStop in sides
            select (pumpStart, pumpStop, masterStart, masterStop))
        {
            var alone = Enumerable.Range(-20, Watering + 40)
                .Count(now => IsOn(now, pumpStart, pumpStop) && !IsOn(now, masterStart, masterStop));
            var site = Site(
                "supply well { flow 20 L/min }",
                $"master main {{ output 7; supply well; load 60 mA{Sides(masterStart, masterStop)} }}\n" +
                $"pump lift {{ output 8; supply well; load 60 mA{Sides(pumpStart, pumpStop)} }}");

            Assert.Equal(alone > 0 ? 1 : 0, Lint.Of(site, "pump-before-master").Length);
        }
    }

    /// <summary>A pump by itself: 10 s with no zone open are borne at either end (common practice).</summary>
    [Theory]
    [InlineData(-10, 10)]
    [InlineData(-11, 10)]
    [InlineData(-10, 11)]
    [InlineData(-300, 300)]
    [InlineData(20, -20)]
    [InlineData(0, 0)]
    public void A_pump_that_is_on_long_before_or_after_its_zones_is_found(int start, int stop)
    {
        var before = Enumerable.Range(-400, 400).Count(now => IsOn(now, start, stop));
        var after = Enumerable.Range(Watering, 400).Count(now => IsOn(now, start, stop));
        var pump = $"pump lift {{ output 8; supply well; load 60 mA{Sides(start, stop)} }}";

        Assert.Equal((before > 10 ? 1 : 0) + (after > 10 ? 1 : 0), Lint.Of(Site("supply well { flow 20 L/min }", pump), "pump-without-flow").Length);
        Assert.Empty(Lint.Of(Site("supply well { flow 20 L/min; bypass }", pump), "pump-without-flow"));
    }

    /// <summary>Every pair of errors that two clocks may have: does one put a start or stop of the pump on the other side of the zone, or beside it?</summary>
    [Theory]
    [InlineData(-10, 10, 5, 5)]
    [InlineData(-10, 10, 6, 5)]
    [InlineData(-30, 10, 6, 5)]
    [InlineData(12, -12, 6, 6)]
    [InlineData(11, -12, 6, 6)]
    [InlineData(0, 0, 1, 0)]
    public void A_pump_that_clocks_put_on_the_other_side_of_its_zone_is_found(int start, int stop, int pumpClock, int zoneClock)
    {
        var isFound = false;
        for (var error = -pumpClock; error <= pumpClock; error++)
        {
            for (var other = -zoneClock; other <= zoneClock; other++)
                isFound |= IsOtherSide(start, start + error - other) || IsOtherSide(stop, stop + error - other);
        }

        var site = $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            supply well { flow 20 L/min; bypass }
            controller shed { clock within {{Math.Max(1, pumpClock)}} s }
            controller wall { {{(zoneClock == 0 ? "" : $"clock within {zoneClock} s")}} }
            zone lawn { output 1 of wall; flow 16 L/min }
            pump lift { output 8 of shed; supply well; load 60 mA{{Sides(start, stop)}} }
            schedule s { every day; start at 06:00; steps { water lawn for 10 min } }
            """;

        Assert.Equal(isFound && zoneClock > 0 ? 1 : 0, Lint.Of(site, "pump-clock").Length);
        Assert.Equal(zoneClock == 0, Lint.Of(site).NotChecked.Any(gap => gap is { What: "pump clocks", Add: "clock" }));
    }

    /// <summary>
    /// A pressure tank in steps of a hundredth of a second: the pump starts when the water in it is used up, and stops when it is full. Boyle's law gives
    /// the water: air at 1.01325 bar more than the gauge (ISO 2533), filled to the lower pressure.
    /// </summary>
    [Theory]
    [InlineData(24, 2.0, 3.5, 2.0)]
    [InlineData(24, 2.0, 3.5, 7.5)]
    [InlineData(8, 2.0, 3.0, 5.0)]
    [InlineData(2, 1.5, 2.0, 1.0)]
    public void A_pressure_tank_excuses_as_many_starts_as_the_motor_bears(double volume, double low, double high, double flow)
    {
        const double step = 0.01, given = 30;
        var most = volume - (volume * (low + 1.01325) / (high + 1.01325));
        var (water, isOn, starts) = (most, false, 0);
        for (var now = 0.0; now < 100 * 3600; now += step)
        {
            water += ((isOn ? given : 0) - flow) / 60 * step;
            if (!isOn && water <= 0) (isOn, starts) = (true, starts + 1);
            if (isOn && water >= most) isOn = false;
        }

        var anHour = starts / 100.0;
        Assert.Empty(Lint.Of(Tank(volume, low, high, flow, (int)Math.Ceiling(anHour * 1.01)), "flow-under-minimum"));
        Assert.Single(Lint.Of(Tank(volume, low, high, flow, (int)Math.Floor(anHour * 0.99)), "flow-under-minimum"));
    }

    private static bool IsOn(int now, int start, int stop) => now >= start && now < Watering + stop;

    private static bool IsOtherSide(int meant, int comes) => meant == 0 ? comes != 0 : Math.Sign(comes) == -Math.Sign(meant);

    private static string Sides(int start, int stop) => Side("starts", start) + Side("stops", stop);

    private static string Side(string word, int after) => after == 0 ? "" : $"; {word} {Math.Abs(after)} s {(after < 0 ? "before" : "after")} zones";

    private static string Site(string supply, string devices) =>
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        {{supply}}
        zone lawn { output 1; flow 16 L/min }
        {{devices}}
        schedule s { every day; start at 06:00; steps { water lawn for 10 min } }
        """;

    private static string Tank(double volume, double low, double high, double flow, int most) => string.Create(CultureInfo.InvariantCulture,
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        supply well { flow 30 L/min; minimum-flow 8 L/min; pressure-tank {{volume}} L from {{low}} bar to {{high}} bar }
        zone pots { output 1; flow {{flow}} L/min }
        pump lift { output 8; supply well; load 60 mA; at most {{most}} starts an hour }
        schedule s { every day; start at 06:00; steps { water pots for 10 min } }
        """);
}
