using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers;

/// <summary>A comparison that ended before its last date, because it would have been more work than it may be (<c>over-limit</c>).</summary>
/// <param name="Until">Up to when all was compared, in Unix seconds.</param>
/// <param name="Runs">How many runs there were by then.</param>
/// <param name="Most">The schedule that makes most of the work.</param>
internal sealed record ComparedInPart(long Until, long Runs, Schedule Most)
{
    /// <summary>Up to when, and what makes it so much.</summary>
    internal string Words(SiteWords words) => string.Create(
        CultureInfo.InvariantCulture,
        $"compared until {words.Moment(Until)}, not after, at the limit of work, most of it for schedule {Most.Name} ({SiteWords.Place(Most.Origin)}) " +
            $"[{ReadingRules.OverLimit.Slug}]");

    /// <summary>A comparison that ended because a budget was used up.</summary>
    internal static ComparedInPart At(long until, long runs, WorkBudget budget, Site site) =>
        new(until, runs, site.Schedules[budget.Greatest is { } greatest ? greatest.Source : 0]);
}
