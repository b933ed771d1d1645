using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>How it is said that more flow is needed at once than something lets through.</summary>
internal static class ExcessFlow
{
    /// <summary>The finding without its fix.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="context">Knows names and clocks.</param>
    /// <param name="overload">The cause.</param>
    /// <param name="owner">What the limit is of: <c>supply well</c>.</param>
    /// <param name="gives">What it does, in a word.</param>
    /// <param name="flow">The limit.</param>
    public static Finding FindingFor(Rule rule, LintContext context, Overload overload, string owner, string gives, Placed<Quantity> flow)
    {
        var (needed, limit) = (Flows.Say(overload.Worst, flow), Flows.Say(flow.InBase, flow));
        var heading = $"{OverloadWords.Needing(context, overload)} {needed} at once, {owner} {gives} {Phrases.Bare(limit)}";
        var finding = OverloadWords.FindingFor(rule, context, overload, heading, $"needs {OverloadWords.UpTo(overload, needed)}",
            new Label(flow.Place, $"{gives} {limit}"));
        return finding with
        {
            Details = $"{finding.Details}{OverloadWords.WorstSum(context, overload, amount => Flows.Say(amount, flow))}: "
                + $"{Flows.Say(overload.Worst - flow.InBase, flow)} too much.",
            Excess = overload.Worst - flow.InBase,
        };
    }
}
