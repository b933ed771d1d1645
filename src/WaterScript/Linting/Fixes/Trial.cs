using WaterScript.Linting.Engine;
using WaterScript.Model;

namespace WaterScript.Linting.Fixes;

/// <summary>A site as it might be, whose dates are calculated again and judged by one rule, so that a fix is known to be one before it is proposed.</summary>
internal static class Trial
{
    /// <summary>The rule when it has seen all that the other site does; null where there are too many runs to try.</summary>
    /// <typeparam name="T">The rule.</typeparam>
    /// <param name="context">The site as it is.</param>
    /// <param name="site">The site as it might be: the same, but for what is tried.</param>
    /// <param name="create">Sets the rule to work.</param>
    public static T? Of<T>(LintContext context, Site site, Func<LintContext, T> create) where T : class, IRule
    {
        if (context.IsTrial || !context.MayTry()) return null;
        var trial = context.TryOut(site);
        var check = create(trial);
        RuleWalk.Show(trial, trial, [check]);
        return check;
    }
}
