using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>How a cause that goes over the power of a controller is reported.</summary>
internal static class PowerOverload
{
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
            Details =
            $"{finding.Details}{OverloadWords.WorstSum(context, overload, limit.Say)}: {limit.Say(overload.Worst - limit.Amount.InBase)} too much."
        };
    }
}
