using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Simulation.Electrical;

/// <summary>What a power supply can carry: a transformer's apparent power, or a current.</summary>
/// <param name="Amount">The limit.</param>
/// <param name="Place">Where it is written.</param>
/// <param name="PerAmpere">What an ampere counts: 1, or the voltage where apparent power is limited.</param>
/// <param name="IsStated">Whether it is given for this; otherwise the continuous one stands in for the peak.</param>
internal sealed record PowerLimit(Quantity Amount, Location Place, decimal PerAmpere, bool IsStated = true)
{
    /// <summary>What two equal sums may differ by: the current of a pulse, U / R, is no exact decimal number.</summary>
    public const decimal Tolerance = 0.000000000001m;

    /// <summary>The most that may be asked for without counting as over, in VA or A.</summary>
    public decimal Most { get; } = Amount.InBase + Tolerance;

    /// <summary>What it carries for as long as needed, or null where that is not given.</summary>
    public static PowerLimit? Continuous(Power? power) => power switch
    {
        { Transformer: { } transformer, TransformerVoltage: { } volts } =>
            new PowerLimit(transformer, transformer.Place, Electricity.ApparentPower(volts.InBase, 1)),
        { Continuous: { } current } => new PowerLimit(current, current.Place, PerAmpere: 1),
        _ => null,
    };

    /// <summary>What it carries for a moment: of a transformer its apparent power, as no more is stated.</summary>
    public static PowerLimit? Peak(Power? power) => power is { Peak: { } peak }
        ? new PowerLimit(peak, peak.Place, PerAmpere: 1)
        : Continuous(power) is { } limit ? limit with { IsStated = power!.Transformer is not null } : null;
}
