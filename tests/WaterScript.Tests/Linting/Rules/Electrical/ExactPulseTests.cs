using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>
/// Minimum voltages one step of the 24th decimal below and above what a pulse leaves: a voltage that is enough is never found, one that is not always is.
/// The values were calculated to 60 digits with mpmath, a library for Python: 2200 uF through 20 ohm have a time constant of 44 ms.
/// </summary>
public class ExactPulseTests
{
    /// <summary>24 V · exp(−50 / 44).</summary>
    [Theory]
    [InlineData("7.703618811570064103007897", 0)]
    [InlineData("7.703618811570064103007898", 1)]
    public void One_pulse_from_full(string minimum, int findings) => Assert.Equal(findings, Lint.Of(Site("5 s", minimum, ""), "capacitor-too-small").Length);

    /// <summary>24 V · exp(−15 ms / (R · C)) · 20 / R with R = 20 + 2 · 2.45 · (1 + 0.00393 · 20) ohm: 100 m of 0.75 mm² at 40 °C, out and back.</summary>
    [Theory]
    [InlineData("14.496648714615422881903645", 0)]
    [InlineData("14.496648714615422881903646", 2)] // of two zones
    public void One_pulse_through_a_wire(string minimum, int findings) =>
        Assert.Equal(findings, Lint.Of(
            Site("5 s", minimum, "wire 100 m 0.75 mm2").Replace("coil 20", "response-time 15 ms; coil 20", StringComparison.Ordinal), "voltage-drop").Length);

    /// <summary>
    /// √((24² · exp(−100 / 44) + 2 · 0.4 W · 0.45 s / 2200 uF) · exp(−100 / 44)): half a second after the first pulse began, the second one begins.
    /// </summary>
    [Theory]
    [InlineData("4.793122738165018310919234", 0)]
    [InlineData("4.793122738165018310919235", 1)]
    public void A_pulse_after_a_recharge(string minimum, int findings)
    {
        Assert.Equal(findings, Lint.Of(Site("500 ms", minimum, ""), "capacitor-not-recharged").Length);
        Assert.Equal(findings, Lint.Of(Site("500 ms", minimum, ""), "valves-left-open").Length);
    }

    /// <summary>What no number of a file is near is decided all the same: a tiny capacitor keeps nothing, a huge one all, and neither takes long.</summary>
    [Theory]
    [InlineData("0.000001 uF", 1)]
    [InlineData("999999999 uF", 0)]
    public void The_smallest_and_the_largest(string capacitor, int findings) => Assert.Equal(
        findings, Lint.Of(Site("5 s", "7", "").Replace("2200 uF", capacitor, StringComparison.Ordinal), "capacitor-too-small").Length);

    private static string Site(string stagger, string minimum, string wire) =>
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller box { outputs 2; stagger {{stagger}}; power { capacitor 2200 uF at 24 V; recharge 0.5 W efficiency 80 % } }
        valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage {{minimum}} V }
        zone a { output 1; valve click; {{wire}} }
        zone b { output 2; valve click; {{wire}} }
        schedule morning { every day; start at 06:00; steps { water a + b for 10 min } }
        """;
}
