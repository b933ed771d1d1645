using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Looks at what a site would do, before a valve moves.</summary>
public static class Linter
{
    private static ImmutableArray<ICheck> Checks =>
    [
        new SkippedTimeCheck(),
        new DoubledTimeCheck(),
        new NoSunEventCheck(),
        new SameMomentCheck(),
        new NoPassCheck(),
        new NeverDueCheck(),
        new ExtraTakenCheck(),
        new CutShortCheck(),
        new CutByHoldCheck(),
        new ShorterThanShortestCheck(),
    ];

    /// <summary>Looks at a site that was read without an error.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates to look at.</param>
    /// <returns>What was found, in order of place within each file.</returns>
    public static ImmutableArray<Finding> Check(Site site, Horizon horizon)
    {
        var survey = ScheduleSurvey.Of(Timetable.Of(site, horizon));
        var findings = Checks.SelectMany(check => check.Find(survey));
        return [.. findings.OrderBy(finding => finding.Primary.Location.Span.Start)];
    }
}
