using WaterScript.Diagnostics;

namespace WaterScript.Checks;

/// <summary>A rule that looks at what a site would do, and how it is set to work.</summary>
/// <param name="Rule">What people read about it.</param>
/// <param name="Begin">Sets it to work on a site.</param>
internal sealed record CheckKind(Rule Rule, Func<Survey, ICheck> Begin)
{
    /// <summary>Whether it looks at one pass of each manual schedule too.</summary>
    public bool SeesManual { get; init; }

    /// <summary>Whether it sees openings or switchings, which are walked beside the runs: it is set to work on a survey of its own thread.</summary>
    public bool SeesOutputs { get; init; }
}
