using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>Pulses that follow one another from one capacitor.</summary>
public class PulseTrainTests
{
    /// <summary>
    /// 50 ms through 20 ohm take 2200 uF from 24 V to 7.70 V, and again to 2.47 V: the second is too weak for 7 V, whatever the first valve needs.
    /// The capacitor, its voltage and the coil are common practice.
    /// </summary>
    [Theory]
    [InlineData("click", "click", 1)]
    [InlineData("snap", "click", 1)]
    [InlineData("snap", "snap", 0)]
    [InlineData("hum", "click", 0)]
    public void A_valve_of_which_it_is_not_known_what_it_needs_drains_the_store_all_the_same(string first, string second, int findings) => Assert.Equal(
        findings,
        Lint.Of(
            $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            controller box { outputs 2; power { continuous 1 A at 24 V; capacitor 2200 uF at 24 V; recharge 0.5 W efficiency 80 % } }
            valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage 7 V }
            valve snap latching { pulse 50 ms; coil 20 ohm }
            valve hum non-latching { inrush 250 mA; holding 150 mA }
            zone a { output 1; valve {{first}} }
            zone b { output 2; valve {{second}} }
            schedule morning { every day; start at 06:00; steps { water a + b for 10 min } }
            """,
            "capacitor-not-recharged").Length);
}
