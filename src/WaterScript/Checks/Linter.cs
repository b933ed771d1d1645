using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Looks at what a site would do, before a valve moves.</summary>
public static class Linter
{
    /// <summary>Looks at a site that was read without an error.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates to look at.</param>
    public static LintReport Check(Site site, Horizon horizon)
    {
        var survey = new Survey(Timetable.Of(site, horizon));
        ImmutableArray<ICheck> checks = [.. Catalogue.Checks.Select(kind => kind.Begin(survey))];
        new Walk(survey, checks).Go();
        var found = checks.SelectMany(check => check.Findings());
        var judged = Acceptances.Apply(site.Acceptances, [.. InOrder(found)], horizon.From);
        return new LintReport(horizon, [.. InOrder(judged.Open)], judged.Accepted, [.. checks.SelectMany(check => check.NotChecked())]);
    }

    private static IEnumerable<Finding> InOrder(IEnumerable<Finding> findings) =>
        findings.OrderBy(finding => finding.Primary.Location.Source.Path, StringComparer.Ordinal).ThenBy(finding => finding.Primary.Location.Span.Start);
}
