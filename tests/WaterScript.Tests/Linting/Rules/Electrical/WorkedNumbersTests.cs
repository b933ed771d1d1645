using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Electrical;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>Worked numbers of electricity: from the formulas, and from the rules as they are reported.</summary>
public class WorkedNumbersTests
{
    private const double Farads = 2200e-6;

    /// <summary>Calculated from the definition of apparent power, with common values of 24 V AC valves.</summary>
    [Theory]
    [InlineData(6, false)]
    [InlineData(7, true)]
    public void Six_valves_opened_one_by_one_pass_on_40_VA_and_the_seventh_does_not(int valves, bool isOver)
    {
        var findings = Lint.Of(Valves(valves, "stagger 300 ms; "), "inrush-current");

        Assert.Equal(isOver ? 1 : 0, findings.Length);
        if (!isOver) return;
        Assert.Equal("needs 41.28 VA", findings[0].Primary.Text);
        Assert.Equal("v7 9.60 + v1 5.28 + v2 5.28 + 4 more = 41.28 VA: 1.28 VA too much.", findings[0].Details);
    }

    /// <summary>6 · 24 V · 0.40 A = 57.6 VA.</summary>
    [Fact]
    public void Six_at_one_instant_want_more_than_40_VA() =>
        Assert.Equal("needs 57.60 VA", Assert.Single(Lint.Of(Valves(6, ""), "inrush-current")).Primary.Text);

    [Theory]
    [InlineData("stagger 300 ms; ", "120 mA", 4, false)]
    [InlineData("stagger 300 ms; ", "119 mA", 4, true)]
    public void Holding_is_compared_with_what_is_carried_for_as_long_as_needed(string stagger, string continuous, int valves, bool isOver)
    {
        var text = Valves(valves, stagger).Replace("transformer 40 VA at 24 V", $"continuous {continuous} at 12 V; peak 2 A", StringComparison.Ordinal)
            .Replace("holding 220 mA", "holding 30 mA", StringComparison.Ordinal);

        Assert.Equal(isOver ? 1 : 0, Lint.Of(text, "holding-current").Length);
        Assert.Empty(Lint.Of(text, "inrush-current"));
    }

    /// <summary>The second valve opens 0.3 s after the first, which closes after 1 s (0.7 s together), or after 2 s (1.7 s).</summary>
    [Theory]
    [InlineData("1 s", 0)]
    [InlineData("2 s", 1)]
    public void What_is_held_together_for_less_than_a_second_is_left_to_the_inrush(string together, int findings) => Assert.Equal(
        findings,
        Lint.Of(
            $$"""
            site plot { timezone UTC; effective 2026-03-01 }
            controller box { outputs 2; stagger 300 ms; power { continuous 220 mA at 24 V; peak 2 A } }
            valve hum non-latching { inrush 250 mA; holding 150 mA }
            zone a { output 1; valve hum }
            zone b { output 2; valve hum }
            schedule one { every day; start at 06:00; steps { water a for {{together}} } }
            schedule two { every day; start at 06:00; steps { water b for 10 s } }
            """,
            "holding-current").Length);

    /// <summary>Calculated from E = C · U² / 2, U = U0 · exp(−t / RC), t = C · (U2² − U1²) / (2 · η · P) and their inverses.</summary>
    [Fact]
    public void A_store_discharges_and_recharges()
    {
        var once = Electricity.AfterPulse(24, Farads, 20, 0.050);

        Assert.Equal(0.6336, Electricity.Energy(Farads, 24), 1e-12);
        Assert.Equal(7.70, once, 0.005);
        Assert.Equal(2.47, Electricity.AfterPulse(once, Farads, 20, 0.050), 0.005);
        Assert.Equal(1.584, Electricity.RechargeSeconds(Farads, 0, 24, 0.5 * 0.8), 1e-9);
        Assert.Equal(3607, Electricity.LeastFarads(24, 12, 20, 0.050) * 1e6, 0.5);
        Assert.Equal(24, Electricity.Recharged(Farads, 0, 0.4, 1.584), 1e-9);
        Assert.Equal(24, Electricity.BeforePulse(once, Farads, 20, 0.050), 1e-9);
    }

    /// <summary>
    /// At 20 °C, out and back: IEC 60228:2004, class 1 and 2: 12.1 Ω/km for 1.5 mm², class 5: 13.3 Ω/km (from memory). American Wire Gauge: 6.385 Ω per
    /// 1000 ft for 18 AWG. At 40 °C copper has 1 + 0.00393 · 20 = 1.0786 times as much (IEC 60028).
    /// </summary>
    [Theory]
    [InlineData(200, "m", 1.5, "mm2", false, 1.936)]
    [InlineData(200, "m", 1.5, "mm2", true, 2.128)]
    [InlineData(500, "ft", 18, "AWG", false, 2.554)]
    [InlineData(500, "ft", 18, "AWG", true, 2.807289256198347)] // more by 13.3 / 12.1, the most of IEC 60228
    public void A_wire_loses_voltage(double length, string unit, double section, string gauge, bool isFlexible, double volts)
    {
        var wire = WireOf((decimal)length, unit, (decimal)section, gauge) with { IsFlexible = isFlexible };

        Assert.Equal((decimal)volts, 0.40m * 2 * Electricity.WireOhms(wire), 12);
        Assert.Equal((decimal)volts * 1.0786m, Electricity.VoltageDrop(0.40m, wire), 12);
    }

    /// <summary>IEC 60228:2004, tables 1 to 3, Ω/km at 20 °C: class 1 and 2, and class 5 (its column, and sections from 6 mm² on, from memory).</summary>
    [Theory]
    [InlineData(0.5, 36.0, 39.0)]
    [InlineData(0.75, 24.5, 26.0)]
    [InlineData(1, 18.1, 19.5)]
    [InlineData(1.5, 12.1, 13.3)]
    [InlineData(2.5, 7.41, 7.98)]
    [InlineData(4, 4.61, 4.95)]
    [InlineData(6, 3.08, 3.30)]
    [InlineData(10, 1.83, 1.91)]
    [InlineData(16, 1.15, 1.21)]
    [InlineData(25, 0.727, 0.780)]
    [InlineData(35, 0.524, 0.554)]
    [InlineData(50, 0.387, 0.386)]
    public void Every_section_has_its_resistance(double section, double solid, double flexible)
    {
        var kilometre = WireOf(1000, "m", (decimal)section, "mm2");

        Assert.Equal((decimal)solid, Electricity.WireOhms(kilometre));
        Assert.Equal((decimal)flexible, Electricity.WireOhms(kilometre with { IsFlexible = true }));
    }

    /// <summary>
    /// Gauge n has a diameter of 0.127 · 92^((36 − n)/39) mm (ASTM B258), and annealed copper 1/58 ohm mm²/m (IEC 60028): worked out from these, each number of
    /// the table, in ohms for 1000 ft, is right to its last digit.
    /// </summary>
    [Theory]
    [InlineData(22, 2)]
    [InlineData(20, 2)]
    [InlineData(18, 3)]
    [InlineData(16, 3)]
    [InlineData(14, 3)]
    [InlineData(12, 3)]
    [InlineData(10, 4)]
    [InlineData(8, 4)]
    [InlineData(6, 4)]
    [InlineData(4, 4)]
    public void Gauges_have_the_resistance_of_their_copper(int gauge, int digits)
    {
        var diameter = 0.127 * Math.Pow(92, (36 - gauge) / 39.0);
        var ohms = 304.8 / 58 / (Math.PI * diameter * diameter / 4);
        Assert.Equal((decimal)Math.Round(ohms, digits), Math.Round(Electricity.WireOhms(WireOf(1000, "ft", gauge, "AWG")), 9));
    }

    /// <summary>What is proposed in place of a wire is thicker than it: the sizes of the tables above, in order.</summary>
    [Fact]
    public void Thicker_wires_begin_with_the_next()
    {
        Assert.Equal([16, 25, 35, 50], Electricity.Thicker(WireOf(1, "m", 10, "mm2")).Select(wire => wire.Section.Value));
        Assert.Equal([8, 6, 4], Electricity.Thicker(WireOf(1, "m", 10, "AWG")).Select(wire => wire.Section.Value));
    }

    /// <summary>Every size that is read has a resistance.</summary>
    [Fact]
    public void Each_size_that_can_be_written_has_a_resistance()
    {
        foreach (var (unit, size) in WireSizes.Squares.Select(size => ("mm2", size)).Concat(WireSizes.Gauges.Select(size => ("AWG", size))))
            Assert.True(Electricity.WireOhms(WireOf(1, "m", size, unit)) > 0);
    }

    [Theory]
    [InlineData("21.9 V", "wire 200 m 1.5 mm2", false)]
    [InlineData("21.705 V", "wire 200 m 1.5 mm2 flexible", true)]
    [InlineData("21.704 V", "wire 200 m 1.5 mm2 flexible", false)]
    [InlineData("21.912 V", "wire 200 m 1.5 mm2", true)]
    [InlineData("21.9118 V", "wire 200 m 1.5 mm2", false)]
    [InlineData("21.2453 V", "wire 500 ft 18 AWG", true)]
    [InlineData("21.2452 V", "wire 500 ft 18 AWG", false)]
    public void The_voltage_at_the_end_of_the_wire_is_compared_with_the_minimum_of_the_valve(string minimumVoltage, string wire, bool isTooLow)
    {
        var text = Valves(1, "").Replace("minimum-voltage 19 V", $"minimum-voltage {minimumVoltage}", StringComparison.Ordinal)
            .Replace("valve ac24; flow", $"valve ac24; {wire}; flow", StringComparison.Ordinal);
        var isFound = Lint.Of(text, "voltage-drop").Length == 1;

        Assert.Equal(isTooLow, isFound);
    }

    /// <summary>2200 µF at 24 V through 20 Ω for 50 ms: the first pulse leaves 7.70 V, one that follows at once 2.47 V.</summary>
    [Fact]
    public void Two_pulses_at_once_leave_too_little_for_the_second()
    {
        var finding = Assert.Single(Lint.Of(Alternating("", works: "7 V", water: "a + b for 10 min"), "capacitor-not-recharged"));

        Assert.Equal("falls to 2.47 V as b opens", finding.Primary.Text);
        Assert.StartsWith("a opens: 24.00 to 7.70 V, b opens: 7.70 to 2.47 V.", finding.Details, StringComparison.Ordinal);
        Assert.Contains(finding.Others, label => label.Text == "needs 7.00 V");
    }

    /// <summary>
    /// From 7.70 V back to the 21.81 V that the next pulse needs takes C · (21.81² − 7.70²) / (2 · 0.8 · 0.5 W) = 1.145 s; with the pulse of 50 ms a stagger of
    /// 1.2 s is enough and 1.1 s is not.
    /// </summary>
    [Theory]
    [InlineData("", 0)]
    [InlineData("stagger 500 ms; ", 450)]
    [InlineData("stagger 1100 ms; ", 1050)]
    [InlineData("stagger 1200 ms; ", null)]
    [InlineData("stagger 2 s; ", null)]
    public void Two_valves_that_alternate_every_five_seconds_pass_with_a_stagger_that_the_recharge_fits_into(string stagger, int? tooShort)
    {
        var findings = Lint.Of(Alternating(stagger, works: "7 V", water: "a, b for 5 s"), "capacitor-not-recharged");

        Assert.Equal(tooShort is null ? 0 : 1, findings.Length);
        if (tooShort is null) return;
        Assert.Equal($"controller box recharges for {tooShort} ms, needs 1145", findings[0].Heading);
        Assert.EndsWith($"\nThat pulse needs 21.81 V: 1145 ms of recharging from 7.70 V at 0.40 W; it gets {tooShort} ms.", findings[0].Details,
            StringComparison.Ordinal);
        Assert.Equal("Write `stagger 1300 ms` in controller box, or use a larger capacitor.", findings[0].Help);
    }

    [Fact]
    public void A_store_that_is_too_small_is_reported_once_with_the_least_that_would_do()
    {
        var report = Lint.Of(Alternating("", works: "12 V", water: "a, b for 5 s"));

        Assert.Equal("Use a capacitor of 3607 uF or more.", Assert.Single(report.Findings, finding => finding.Rule.Slug == "capacitor-too-small").Help);
        Assert.DoesNotContain(report.Findings, finding => finding.Rule.Slug is "capacitor-not-recharged" or "valves-left-open");
    }

    [Theory]
    [InlineData("", true)]
    [InlineData("stagger 1200 ms; ", false)]
    public void Closing_all_takes_one_pulse_each(string stagger, bool isTooMuch) =>
        Assert.Equal(isTooMuch, Lint.Of(Alternating(stagger, works: "7 V", water: "a for 10 min"), "valves-left-open").Length == 1);

    private static Wire WireOf(decimal length, string unit, decimal section, string gauge) =>
        new(new(length, Units.Find(unit, Dimension.Length)!), new(section, Units.Find(gauge, Dimension.WireSection)!));

    private static string Valves(int count, string stagger)
    {
        var zones = Enumerable.Range(1, count).Select(number => $"zone v{number} {{ output {number}; valve ac24; flow 1 L/min }}");
        return $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            controller box { outputs 8; {{stagger}}power { transformer 40 VA at 24 V } }
            valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 19 V }
            {{string.Join('\n', zones)}}
            schedule s { on mon; start at 06:00; steps { water {{string.Join(" + ", Enumerable.Range(1, count).Select(number => $"v{number}"))}} for 10 min } }
            """;
    }

    /// <summary>2200 uF at 24 V, a coil of 20 ohm and pulses of 50 ms are common practice.</summary>
    private static string Alternating(string stagger, string works, string water) =>
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller box { outputs 2; {{stagger}}power { capacitor 2200 uF at 24 V; recharge 0.5 W efficiency 80 % } }
        valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage {{works}} }
        zone a { output 1; valve click }
        zone b { output 2; valve click }
        schedule s { on mon; start at 06:00; steps { repeat 20 times { water {{water}} } } }
        """;
}
