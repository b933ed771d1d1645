using System.Collections.Immutable;
using WaterScript.Simulation;

namespace WaterScript.Linting.Engine;

/// <summary>A walk over a timetable that rules observe, and before each of them what they share.</summary>
internal static class RuleWalk
{
    /// <summary>Sets rules to work and shows them all dates.</summary>
    /// <param name="context">The site and its dates.</param>
    /// <param name="outputs">The same, for rules that see openings and switchings; another one where those are looked at on a thread of their own.</param>
    /// <param name="kinds">The rules.</param>
    public static ImmutableArray<IRule> Of(LintContext context, LintContext outputs, IEnumerable<RuleRegistration> kinds)
    {
        ImmutableArray<IRule> rules = [.. kinds.Select(kind => kind.Create(kind.VisitsOutputs ? outputs : context))];
        Show(context, outputs, rules);
        return rules;
    }

    /// <summary>Shows all dates to rules that are set to work already.</summary>
    public static void Show(LintContext context, LintContext outputs, IEnumerable<IRule> rules) =>
        new TimelineWalker(context, outputs, [.. context.Observers, .. rules.OfType<ITimelineObserver>()]).Go();
}
