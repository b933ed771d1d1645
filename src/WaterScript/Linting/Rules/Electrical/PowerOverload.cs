using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>How a cause that goes over the power of a controller is reported.</summary>
internal static class PowerOverload
{
    /// <summary>What needs so much, in words.</summary>
    /// <param name="overload">The cause.</param>
    /// <param name="valves">The words where it is valves that are on, or that open.</param>
    public static string Needing(Overload overload, string valves) =>
        overload.Contributions.Any(part => part.IsRecharge) ? "recharge and open outputs"
        : overload.Contributions.Any(part => part.IsClosing) ? "switching valves"
        : valves;

    /// <summary>What helps where the recharge of a capacitor is part of the sum; null where it is not.</summary>
    public static string? RechargeHelp(LintContext context, PowerLimit limit, Overload overload)
    {
        if (!overload.Contributions.Any(part => part.IsRecharge)) return null;
        var left = limit.Amount.InBase - overload.Contributions.Where(part => !part.IsRecharge).Sum(part => part.Amount);
        var volts = Electricity.VoltsOf(context.Site.Controllers[overload.Owner].Power)!.Value.Value.InBase;
        var watts = decimal.Floor(100 * left / limit.PerAmpere * volts) / 100;
        return watts > 0 ? $"Use a stronger power source, or a `recharge` of {Phrases.Number(watts, 2)} W or less." : "Use a stronger power source.";
    }

    /// <summary>The finding, with what the sum is made of; the fix is the rule's.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="context">Knows names and clocks.</param>
    /// <param name="limit">What the controller can carry.</param>
    /// <param name="overload">The cause; its owner is the controller.</param>
    /// <param name="heading">What was found.</param>
    /// <param name="verb">The verb for what is asked.</param>
    /// <param name="gives">The verb for what there is.</param>
    public static Finding FindingFor(Rule rule, LintContext context, PowerLimit limit, Overload overload, string heading, string verb, string gives)
    {
        var needed = $"{verb} {OverloadWords.UpTo(overload, limit.Say(overload.Worst))}";
        var finding = OverloadWords.FindingFor(rule, context, overload, heading, needed, new Label(limit.Place, $"{gives} {limit.Amount}"));
        return finding with
        {
            Excess = overload.Worst - limit.Amount.InBase,
            Details =
            $"{finding.Details}{OverloadWords.WorstSum(context, overload, limit.Say)}: {limit.Say(overload.Worst - limit.Amount.InBase)} too much."
        };
    }
}
