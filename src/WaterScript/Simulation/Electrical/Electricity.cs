using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Simulation.Electrical;

/// <summary>The formulas of the rules about power, each once.</summary>
internal static class Electricity
{
    private const decimal Foot = 0.3048m;

    /// <summary>By what share of its resistance at 20 °C copper gains with each kelvin (IEC 60028).</summary>
    private const decimal PerKelvin = 0.00393m;

    private const decimal ReferenceTemperature = 20;

    /// <summary>Temperature of a wire on a wall or in warm ground on a summer day, in °C (common practice); in the sun it is more.</summary>
    public const decimal SummerTemperature = 40;

    /// <summary>
    /// Greatest resistance of copper conductors of class 1 and 2, and of class 5, at 20 °C, in Ω/km by mm² (IEC 60228:2004; from 6 mm² on, and those of
    /// class 5, from memory of it).
    /// </summary>
    private static readonly Dictionary<decimal, (decimal Solid, decimal Flexible)> BySection = new()
    {
        [0.5m] = (36.0m, 39.0m),
        [0.75m] = (24.5m, 26.0m),
        [1m] = (18.1m, 19.5m),
        [1.5m] = (12.1m, 13.3m),
        [2.5m] = (7.41m, 7.98m),
        [4m] = (4.61m, 4.95m),
        [6m] = (3.08m, 3.30m),
        [10m] = (1.83m, 1.91m),
        [16m] = (1.15m, 1.21m),
        [25m] = (0.727m, 0.780m),
        [35m] = (0.524m, 0.554m),
        [50m] = (0.387m, 0.386m),
    };

    /// <summary>By how much flexible conductors exceed others at most; for gauges, of which no table has both.</summary>
    private static readonly decimal Flexible = BySection.Values.Max(ohms => ohms.Flexible / ohms.Solid);

    /// <summary>Resistance of copper wire in Ω per 1000 ft at 20 °C by American Wire Gauge (the gauge's table, ASTM B258).</summary>
    private static readonly Dictionary<decimal, decimal> ByGauge = new()
    {
        [22] = 16.14m,
        [20] = 10.15m,
        [18] = 6.385m,
        [16] = 4.016m,
        [14] = 2.525m,
        [12] = 1.588m,
        [10] = 0.9989m,
        [8] = 0.6282m,
        [6] = 0.3951m,
        [4] = 0.2485m,
    };

    /// <summary>The same wire in the sections that the tables list and that are thicker, in its unit, the thinnest first.</summary>
    public static IEnumerable<Wire> Thicker(Wire wire)
    {
        var sections = wire.Section.Unit == Units.Awg
            ? ByGauge.Keys.Where(gauge => gauge < wire.Section.Value).OrderDescending().Select(gauge => new Quantity(gauge, Units.Awg))
            : BySection.Keys.Select(square => new Quantity(square, wire.Section.Unit)).Where(other => other.InBase > wire.Section.InBase)
                .OrderBy(other => other.InBase);
        return sections.Select(section => wire with { Section = section });
    }

    /// <summary>Resistance of one conductor of a wire at 20 °C, in ohms.</summary>
    public static decimal WireOhms(in Wire wire) => wire.Length.InBase * OhmsPerMetre(wire.Section, wire.IsFlexible);

    /// <summary>Sizes that no table lists are refused where they are read: see <see cref="WireSizes"/>.</summary>
    private static decimal OhmsPerMetre(in Quantity section, bool isFlexible)
    {
        if (section.Unit == Units.Awg) return ByGauge[section.Value] / Foot / 1000 * (isFlexible ? Flexible : 1);
        var perKilometre = BySection[section.InBase];
        return (isFlexible ? perKilometre.Flexible : perKilometre.Solid) / 1000;
    }

    /// <summary>Resistance of one conductor of a wire in summer, in ohms: R = R20 · (1 + α · (T − 20 °C)).</summary>
    public static decimal SummerOhms(in Wire wire) => WireOhms(wire) * (1 + (PerKelvin * (SummerTemperature - ReferenceTemperature)));

    /// <summary>Resistance of a wire in summer, out and back, in ohms.</summary>
    public static decimal LoopOhms(in Wire wire) => 2 * SummerOhms(wire);

    /// <summary>Voltage lost out and back: U = I · (R out + R back).</summary>
    public static decimal VoltageDrop(decimal amperes, in Wire wire) => amperes * LoopOhms(wire);

    /// <summary>Apparent power in VA: S = U · I.</summary>
    public static decimal ApparentPower(decimal volts, decimal amperes) => volts * amperes;

    /// <summary>Current in A through a resistance: I = U / R.</summary>
    public static decimal Current(decimal volts, decimal ohms) => volts / ohms;

    /// <summary>Voltage that a power supply gives for as long as needed; null where it is not given.</summary>
    public static Placed<Quantity>? VoltsOf(Power? power) => power?.TransformerVoltage ?? power?.ContinuousVoltage;

    /// <summary>Energy of a charged capacitor in joules: E = C · U² / 2.</summary>
    public static double Energy(double farads, double volts) => farads * volts * volts / 2;

    /// <summary>Voltage of a capacitor that has discharged through a coil for a time: U = U0 · exp(−t / (R · C)).</summary>
    public static double AfterPulse(double volts, double farads, double ohms, double seconds) => volts * Math.Exp(-seconds / (ohms * farads));

    /// <summary>Voltage from which a discharge through a coil ends at a given one; the inverse of <see cref="AfterPulse"/>.</summary>
    public static double BeforePulse(double volts, double farads, double ohms, double seconds) => volts * Math.Exp(seconds / (ohms * farads));

    /// <summary>Seconds to charge a capacitor at constant power: t = C · (U2² − U1²) / (2 · η · P).</summary>
    public static double RechargeSeconds(double farads, double from, double to, double watts) =>
        Math.Max(0, farads * ((to * to) - (from * from)) / (2 * watts));

    /// <summary>Voltage of a capacitor after charging at constant power for a time; the inverse of <see cref="RechargeSeconds"/>.</summary>
    public static double Recharged(double farads, double from, double watts, double seconds) => Math.Sqrt((from * from) + (2 * watts * seconds / farads));

    /// <summary>The least capacitance, in farads, from which a pulse still has the voltage that it needs: C ≥ t / (R · ln(U0 / Umin)).</summary>
    public static double LeastFarads(double volts, double least, double ohms, double seconds) => seconds / (ohms * Math.Log(volts / least));
}
