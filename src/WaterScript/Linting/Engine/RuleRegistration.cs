using WaterScript.Diagnostics;

namespace WaterScript.Linting.Engine;

/// <summary>A rule that looks at what a site would do, and how it is set to work.</summary>
/// <param name="Rule">What people read about it.</param>
/// <param name="Create">Sets it to work on a site.</param>
internal sealed record RuleRegistration(Rule Rule, Func<LintContext, IRule> Create)
{
    /// <summary>Whether it looks at one pass of each manual schedule too.</summary>
    public bool VisitsManual { get; init; }

    /// <summary>Whether it sees openings or switchings, which are walked beside the runs: it is set to work on a context of its own thread.</summary>
    public bool VisitsOutputs { get; init; }
}
