using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>
/// A capacitor from pulse to pulse, worked out by hand from U = U0 · exp(−t / (R · C)) and E = C · U² / 2: 5000 uF through 4 ohm have a time constant of
/// 20 ms, so a pulse of 20 ms leaves exp(−2) = 0.135335283 of the square of 20 V.
/// </summary>
public sealed class CapacitorTests
{
    /// <summary>
    /// 0.8 W give 2 · 0.8 / 0.005 = 320 V² a second; 400 · (1 − exp(−2)) = 345.86589 V² lack, which takes 1.080831 s from 10.02 s on. It is full then, and
    /// not in the millisecond before. Of a recharge without an efficiency all arrives.
    /// </summary>
    [Theory]
    [InlineData("recharge 1 W efficiency 80 %")]
    [InlineData("recharge 0.8 W")]
    public void It_is_full_when_what_a_pulse_took_is_back(string recharge)
    {
        var (capacitor, valve) = Of(recharge);
        Assert.True(capacitor.Give(10, valve).IsFromFull);
        Assert.Equal(11_101, capacitor.FullAt);
        Assert.Equal(7.357588823428847, capacitor.Give(10.02m, valve).Before, 12); // 20 · exp(−1), at once
    }

    /// <summary>Just before it is full again, and just after: 11.100830896 s.</summary>
    [Theory]
    [InlineData("11.100830895", false)]
    [InlineData("11.100830897", true)]
    public void A_pulse_finds_it_full_or_not(string at, bool isFull)
    {
        var (capacitor, valve) = Of("recharge 1 W efficiency 80 %");
        capacitor.Give(10, valve);
        Assert.Equal(isFull, capacitor.Give(decimal.Parse(at, System.Globalization.CultureInfo.InvariantCulture), valve).IsFromFull);
    }

    /// <summary>Where the recharge is not given it takes a second from the end of the pulse, which is documented.</summary>
    [Theory]
    [InlineData("11.019", false)]
    [InlineData("11.02", true)]
    public void Without_a_recharge_it_takes_a_second(string at, bool isFull)
    {
        var (capacitor, valve) = Of("");
        capacitor.Give(10, valve);
        Assert.Null(capacitor.FullAt);
        Assert.Equal(isFull, capacitor.Give(decimal.Parse(at, System.Globalization.CultureInfo.InvariantCulture), valve).IsFromFull);
    }

    /// <summary>Of a valve of which nobody knows what it works from, no pulse is too weak.</summary>
    [Fact]
    public void A_valve_without_a_minimum_voltage_needs_nothing()
    {
        var zone = Site("").Zones[0];
        var pulse = PulseValve.Drawing(zone.Controller!, ((LatchingValve)zone.Valve!) with { MinimumVoltage = null })!;
        Assert.Equal((0, 0, false), (pulse.MinimumVoltage, pulse.Needs, pulse.IsTooWeakFromFull));
    }

    private static (Capacitor Capacitor, PulseValve Valve) Of(string recharge)
    {
        var (controller, valve) = Assert.Single(PulseValves.Of(Site(recharge)));
        return (Capacitor.Of(controller)!, valve);
    }

    private static Site Site(string recharge) => Expect.Fine("zone d { output 1; valve click }", $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller store { outputs 2; power { capacitor 5000 uF at 20 V; {{recharge}} } }
        valve click latching { pulse 20 ms; coil 4 ohm; minimum-voltage 5 V }

        """).Site!;
}
