using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Electrical;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>What a power supply can carry: a transformer's apparent power, or a current.</summary>
/// <param name="Amount">The limit.</param>
/// <param name="Place">Where it is written.</param>
/// <param name="PerAmpere">What an ampere counts: 1, or the voltage where apparent power is limited.</param>
/// <param name="IsStated">Whether it is given for this; otherwise the continuous one stands in for the peak.</param>
internal sealed record PowerLimit(Quantity Amount, Location Place, decimal PerAmpere, bool IsStated = true)
{
    /// <summary>What two equal sums may differ by.</summary>
    public const decimal Tolerance = 0.000001m;

    /// <summary>The most that may be asked for without counting as over, in VA or A.</summary>
    public decimal Most { get; } = Amount.InBase + Tolerance;

    /// <summary>What it carries for as long as wanted, or null where that is not given.</summary>
    public static PowerLimit? Continuous(Power? power) => power switch
    {
        { Transformer: { } transformer, TransformerVoltage: { } volts } => new PowerLimit(transformer, power.PlaceOf(Schema.Power.Transformer), Electricity.ApparentPower(volts.InBase, 1)),
        { Continuous: { } current } => new PowerLimit(current, power.PlaceOf(Schema.Power.Continuous), PerAmpere: 1),
        _ => null,
    };

    /// <summary>What it carries for a moment: of a transformer its apparent power, as no more is stated.</summary>
    public static PowerLimit? Peak(Power? power) => power is { Peak: { } peak }
        ? new PowerLimit(peak, power.PlaceOf(Schema.Power.Peak), PerAmpere: 1)
        : Continuous(power) is { } limit ? limit with { IsStated = power!.Transformer is not null } : null;

    /// <summary>A sum in its unit: <c>41.28 VA</c>.</summary>
    public string Say(decimal amount) => Amount.Unit.Symbol == "mA" ? Phrases.Amount(amount, Amount.Unit, 0) : Phrases.Amount(amount, Amount.Unit, 2);

    /// <summary>The finding of a cause that goes over it, with what the sum is made of; the fix is the rule's.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="context">Knows names and clocks.</param>
    /// <param name="overload">The cause; its owner is the controller.</param>
    /// <param name="heading">What was found.</param>
    /// <param name="wants">The verb for what is asked.</param>
    /// <param name="gives">The verb for what there is.</param>
    public Finding FindingFor(Rule rule, LintContext context, Overload overload, string heading, string wants, string gives)
    {
        var finding = OverloadWords.FindingFor(rule, context, overload, heading, $"{wants} {OverloadWords.UpTo(overload, Say(overload.Worst))}", new Label(Place, $"{gives} {Amount}"));
        return finding with { Details = $"{finding.Details}{OverloadWords.WorstParts(context, overload, Say)}: {Say(overload.Worst - Amount.InBase)} too much." };
    }
}
