using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;

namespace WaterScript.Linting.Fixes;

/// <summary>Finds by trial when a schedule had better start: the dates are calculated again with each later start, and judged by the same rule.</summary>
internal static class StartTrial
{
    /// <summary>The later start after which it happens least, with how often that is; null where none helps, or there are too many runs to try.</summary>
    /// <param name="context">The site as it is.</param>
    /// <param name="finding">What was found.</param>
    /// <param name="overload">Its cause; the last of its schedules is moved.</param>
    /// <param name="all">How often anything of the rule happens.</param>
    /// <param name="create">Sets the rule to work.</param>
    /// <param name="shifts">By how many seconds later, the least first; null for so long as the worst lasts, and so long as a pass of the other lasts.</param>
    public static (MovedStart Start, long Left)? Best(
        LintContext context, Finding finding, Overload overload, long all, Func<LintContext, IRule> create, IEnumerable<long>? shifts = null)
    {
        if (context.Manual is not null) return null;
        (MovedStart Start, long Left)? best = null;
        foreach (var seconds in shifts ?? Shifts(context, overload))
        {
            if (MovedStart.OfOnly(overload.Places[^1].Schedule, seconds) is not { } start || Times(context, start, finding, create) is not var (left, others))
                continue;
            if (others > all - overload.Times || left >= (best?.Left ?? overload.Times)) continue;
            best = (start, left);
            if (left == 0) break;
        }

        return best;
    }

    /// <summary>By how much later: so long as the worst lasts, to the second, the minute and five minutes, and so long as a pass of the other lasts.</summary>
    private static IEnumerable<long> Shifts(LintContext context, Overload overload)
    {
        const long minute = 60, fiveMinutes = 300;
        var pass = context.Timetable.LongestSecondsOf(overload.Places[0].Schedule.Index);
        return new[] { overload.Longest, RoundedUp(overload.Longest, minute), RoundedUp(overload.Longest, fiveMinutes),
            RoundedUp(pass, fiveMinutes) }.Where(seconds => seconds > 0).Distinct().Order();
    }

    private static long RoundedUp(long seconds, long to) => (seconds + to - 1) / to * to;

    /// <summary>How often the same happens with a moved start, and how often anything else of the rule; null where there are too many runs to try.</summary>
    private static (long Same, long Others)? Times(LintContext context, MovedStart start, Finding finding, Func<LintContext, IRule> create)
    {
        var site = context.Site with { Schedules = context.Site.Schedules.SetItem(start.Schedule.Index, start.Moved) };
        if (Trial.Of(context, site, create) is not { } rule) return null;
        var found = rule.Findings().ToLookup(other => PlacesOf(other).SequenceEqual(PlacesOf(finding)), other => other.Happens!.Times);
        return (found[true].Sum(), found[false].Sum());
    }

    private static IEnumerable<Text.Location> PlacesOf(Finding finding) => finding.Others.Prepend(finding.Primary).Select(label => label.Location);
}
