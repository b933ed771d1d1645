using System.Collections.Frozen;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Simulation.Electrical;

/// <summary>The formulas of the rules about power, each once.</summary>
internal static class Electricity
{
    private const decimal Foot = 0.3048m;

    /// <summary>Resistivity of annealed copper at 20 °C, in Ω·mm²/m: 1/58 (IEC 60028), for sections that no table lists.</summary>
    private const decimal Copper = 1m / 58;

    /// <summary>
    /// Greatest resistance of copper conductors of class 1 and 2 at 20 °C, in Ω/km by mm² (IEC 60228:2004; those of 6 and 10 mm² from memory of it).
    /// </summary>
    private static readonly FrozenDictionary<decimal, decimal> BySection = new Dictionary<decimal, decimal>
    {
        [0.5m] = 36.0m,
        [0.75m] = 24.5m,
        [1m] = 18.1m,
        [1.5m] = 12.1m,
        [2.5m] = 7.41m,
        [4m] = 4.61m,
        [6m] = 3.08m,
        [10m] = 1.83m,
    }.ToFrozenDictionary();

    /// <summary>Resistance of copper wire in Ω per 1000 ft at 20 °C by American Wire Gauge (the gauge's table, ASTM B258).</summary>
    private static readonly FrozenDictionary<decimal, decimal> ByGauge = new Dictionary<decimal, decimal>
    {
        [18] = 6.385m,
        [16] = 4.016m,
        [14] = 2.525m,
        [12] = 1.588m,
        [10] = 0.9989m,
    }.ToFrozenDictionary();

    /// <summary>The sections that the tables list and that are thicker than one, in its unit, the thinnest first.</summary>
    public static IEnumerable<Quantity> Thicker(Quantity section) => section.Unit == Units.Awg
        ? ByGauge.Keys.Where(gauge => gauge < section.Value).OrderDescending().Select(gauge => new Quantity(gauge, Units.Awg))
        : BySection.Keys.Select(square => new Quantity(square, section.Unit)).Where(other => other.InBase > section.InBase).OrderBy(other => other.InBase);

    /// <summary>Resistance of one conductor in ohms.</summary>
    /// <param name="length">Its length.</param>
    /// <param name="section">Its section, in mm² or AWG.</param>
    public static decimal WireOhms(Quantity length, Quantity section)
    {
        if (section.Unit == Units.Awg)
            return ByGauge.TryGetValue(section.Value, out var perFeet) ? length.InBase / Foot * perFeet / 1000 : length.InBase * Copper / section.InBase;
        return BySection.TryGetValue(section.InBase, out var perKilometre) ? length.InBase * perKilometre / 1000 : length.InBase * Copper / section.InBase;
    }

    /// <summary>Voltage lost on the fix and back: U = I · (R out + R back), both of one length and section.</summary>
    public static decimal VoltageDrop(decimal amperes, Quantity length, Quantity section) => amperes * 2 * WireOhms(length, section);

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
