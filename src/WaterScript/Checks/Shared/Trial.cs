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

    /// <summary>The least number that will do, of those from which on every greater one does too; null where the greatest does not, or there are too many runs to try.</summary>
    /// <param name="least">The first that may be tried.</param>
    /// <param name="greatest">The last.</param>
    /// <param name="does">Tries one; null where there are too many runs to try.</param>
    public static long? Least(long least, long greatest, Func<long, bool?> does)
    {
        if (greatest < least || does(greatest) is not true) return null;
        while (least < greatest)
        {
            var middle = (least + greatest) / 2;
            if (does(middle) is not { } isEnough) return null;
            if (isEnough) greatest = middle;
            else least = middle + 1;
        }

        return greatest;
    }
}
