using System.Globalization;
using System.Numerics;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Tests.Binding;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>What the rules about power count with, each number worked out elsewhere.</summary>
public sealed class ElectricityTests
{
    private const string Store = """
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller box { outputs 4; power { continuous 1 A at 12 V; capacitor 5000 uF at 20 V; recharge 0.8 W } }
        valve click latching { pulse 20 ms; coil 4 ohm }
        zone a { output 1; valve click }

        """;

    /// <summary>
    /// exp(−x) · 2¹⁶⁰, rounded down, by the decimal module of Python with 120 digits: x of 1/2, 2 and 40. The promise is 160 binary digits.
    /// </summary>
    [Theory]
    [InlineData("0.5", "886445552261406463456783997105140874900585037706")]
    [InlineData("2", "197792738038950947696974261089678842854352197149")]
    [InlineData("40", "6208976700070366049643891054324")]
    public void What_a_discharge_leaves_is_exact_to_160_binary_digits(string exponent, string steps) =>
        Assert.Equal(BigInteger.Parse(steps, CultureInfo.InvariantCulture), SquareVolts.Left(Ratio.Of(Exact(exponent))).Steps);

    /// <summary>1/2 + 1/4 = 3/4, as cross products: no digit is lost, and none is made up.</summary>
    [Fact]
    public void Fractions_are_added_over_a_common_denominator()
    {
        var sum = Ratio.Of(0.5m) + Ratio.Of(0.25m);
        Assert.Equal(sum.Over * 4, sum.Under * 3);
        var thirds = (Ratio.Of(1) / Ratio.Of(3)) + (Ratio.Of(2) / Ratio.Of(7)); // 13/21
        Assert.Equal(thirds.Over * 21, thirds.Under * 13);
    }

    [Fact]
    public void Apparent_power_is_volts_times_amperes() => Assert.Equal(9.6m, Electricity.ApparentPower(24, 0.4m));

    /// <summary>A capacitor so small that nothing is left of a pulse: of a valve without a minimum voltage nobody knows that it is too weak.</summary>
    [Fact]
    public void Without_a_minimum_voltage_no_pulse_is_too_weak()
    {
        var site = Expect.Fine("", Store.Replace("5000 uF", "0.000001 uF", StringComparison.Ordinal)).Site!;
        Assert.False(PulseValve.Drawing(site.Controllers[0], site.Zones[0].Valve)!.IsTooWeakFromFull);
    }

    /// <summary>A pulse from 10.00 to 10.02 s takes 345.86589 V², and 2 · 0.8 / 0.005 = 320 V² come back a second: until the 11,101st millisecond.</summary>
    [Fact]
    public void A_recharge_draws_until_the_capacitor_is_full()
    {
        var site = Expect.Fine("", Store).Site!;
        var recharging = new Recharging(site, [PowerLimit.Continuous(site.Controllers[0].Power)]);
        Assert.Null(recharging.At(0, 10_000));
        Assert.True(recharging.Give(new Switching(10_000, 0, 1, true, 1, Zone: 0, Device: -1), default));
        Assert.Equal(11_101, recharging.Until(0));
        Assert.Equal(Math.Round(0.8m / 12, 12), Math.Round(recharging.At(0, 11_100)!.Value.Amount, 12));
        Assert.True(recharging.At(0, 10_000)!.Value.IsRecharge);
        Assert.Null(recharging.At(0, 11_101));
    }

    /// <summary>What was never opened takes nothing away when it closes.</summary>
    [Fact]
    public void Only_what_is_open_closes()
    {
        var open = new OpenContributions();
        open.Open(new Switching(0, 0, 1, true, 1, Zone: 0, Device: -1), new Contribution(default, Zone: 0, Device: -1, 0.4m));
        open.Open(new Switching(0, 0, 2, true, 2, Zone: 1, Device: -1), new Contribution(default, Zone: 1, Device: -1, 0.3m));
        open.Close(new Switching(1, 0, 3, false, 3, Zone: 2, Device: -1));
        Assert.Equal((0.7m, 2), (open.Sum, open.Contributions.Count));
        open.Close(new Switching(2, 0, 1, false, 1, Zone: 0, Device: -1));
        Assert.Equal((0.3m, 1), (open.Sum, Assert.Single(open.Contributions).Zone));
    }

    private static decimal Exact(string number) => decimal.Parse(number, CultureInfo.InvariantCulture);
}
