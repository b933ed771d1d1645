using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>Wires and pulses that follow one another, worked out step by step in time, without the formulas of the rules.</summary>
public class WireTrainTests
{
    private const double Farads = 4700e-6;
    private const double Full = 18;
    private const double Coil = 10;
    private const double Watts = 0.5;
    private const double PulseSeconds = 0.020;
    private const double MoveSeconds = 0.015;

    /// <summary>At 20 °C: 100 m out and back of 0.75 mm², 24.5 Ω/km (IEC 60228:2004, class 1 and 2).</summary>
    private const double Cold = 4.9;

    /// <summary>Copper has 0.393 % more with each kelvin (IEC 60028); 40 °C in summer is common practice.</summary>
    private const double Warm = Cold * (1 + (0.00393 * 20));

    /// <summary>The wire alone leaves 9.75 V, the train alone 10.2 V, both together 8.4 V: check values that were worked out for 20 °C.</summary>
    [Fact]
    public void A_wire_and_a_train_together_leave_less_than_either_alone()
    {
        Assert.Equal(9.75, AtCoil(Full, Cold), 0.005);
        Assert.Equal(10.2, AtCoil(BeforeSecond(0, idle: 0.280), 0), 0.05);
        Assert.Equal(8.4, AtCoil(BeforeSecond(Cold, idle: 0.280), Cold), 0.05);
    }

    /// <summary>What the rule finds is what time steps find, for staggers and minimum voltages on both sides of what is left.</summary>
    [Theory]
    [InlineData(0.100)]
    [InlineData(0.300)]
    [InlineData(0.500)]
    public void A_valve_gets_what_time_steps_leave(double stagger)
    {
        var left = AtCoil(BeforeSecond(Warm, stagger - PulseSeconds), Warm);

        Assert.Empty(Lint.Of(Site(stagger, left - 0.005, "100 m"), "capacitor-not-recharged"));
        Assert.Contains(Lint.Of(Site(stagger, left + 0.005, "100 m"), "capacitor-not-recharged"),
            finding => finding.Primary.Text.StartsWith($"falls to {left:0.00} V", StringComparison.Ordinal));
    }

    /// <summary>With 1 m of wire in place of 100 m the same valve moves, and so it does alone on the long wire.</summary>
    [Fact]
    public void Only_both_together_are_found()
    {
        Assert.Single(Lint.Of(Site(0.300, 9, "100 m"), "capacitor-not-recharged"));
        Assert.Empty(Lint.Of(Site(0.300, 9, "100 m"), "voltage-drop"));
        Assert.Empty(Lint.Of(Site(0.300, 9, "1 m"), "capacitor-not-recharged"));
        Assert.Empty(Lint.Of(Site(5, 9, "100 m"), "capacitor-not-recharged"));
    }

    /// <summary>A wire that is too long for a full capacitor is found once, as a wire.</summary>
    [Fact]
    public void A_wire_that_is_too_long_for_one_pulse_is_found_as_a_wire()
    {
        Assert.Equal(2, Lint.Of(Site(0.300, 9.6, "100 m"), "voltage-drop").Length);
        Assert.Empty(Lint.Of(Site(0.300, 9.6, "100 m"), "capacitor-not-recharged"));
    }

    /// <summary>The capacitor before a second pulse: one pulse, then so long a recharge; energy by energy.</summary>
    private static double BeforeSecond(double wire, double idle)
    {
        var volts = Discharged(Full, Coil + wire, PulseSeconds);
        const double step = 1e-6;
        for (var seconds = 0.0; seconds < idle && volts < Full; seconds += step) volts = Math.Sqrt((volts * volts) + (2 * Watts * step / Farads));
        return Math.Min(volts, Full);
    }

    /// <summary>What the coil has of the voltage when the plunger moves: the loop divides it.</summary>
    private static double AtCoil(double volts, double wire) => Discharged(volts, Coil + wire, MoveSeconds) * Coil / (Coil + wire);

    /// <summary>Each microsecond the capacitor loses the charge that flows: C · dU = −U / R · dt.</summary>
    private static double Discharged(double volts, double ohms, double seconds)
    {
        const double step = 1e-7;
        for (var elapsed = 0.0; elapsed < seconds; elapsed += step) volts -= volts / ohms / Farads * step;
        return volts;
    }

    private static string Site(double stagger, double minimum, string wire) => FormattableString.Invariant(
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller box { outputs 2; stagger {{stagger * 1000:0}} ms; power { capacitor 4700 uF at 18 V; recharge 0.5 W } }
        valve click latching { pulse 20 ms; response-time 15 ms; coil 10 ohm; minimum-voltage {{minimum:0.0000}} V }
        zone a { output 1; valve click; wire {{wire}} 0.75 mm2 }
        zone b { output 2; valve click; wire {{wire}} 0.75 mm2 }
        schedule morning { every day; start at 06:00; steps { water a + b for 10 min } }
        """);
}
