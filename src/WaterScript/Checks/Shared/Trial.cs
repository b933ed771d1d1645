using WaterScript.Model;

namespace WaterScript.Checks;

/// <summary>A site as it might be, whose dates are reckoned anew and judged by one rule, so that a way out is known to be one before it is proposed.</summary>
internal static class Trial
{
    /// <summary>The rule when it has seen all that the other site does; null where there are too many runs to try.</summary>
    /// <typeparam name="T">The rule.</typeparam>
    /// <param name="survey">The site as it is.</param>
    /// <param name="site">The site as it might be: the same, but for what is tried.</param>
    /// <param name="begin">Sets the rule to work.</param>
    public static T? Of<T>(Survey survey, Site site, Func<Survey, T> begin) where T : class, ICheck
    {
        if (survey.IsTrial || !survey.MayTry()) return null;
        var trial = survey.TryOut(site);
        var check = begin(trial);
        new Walk(trial, [check]).Go();
        return check;
    }
}
