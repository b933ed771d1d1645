using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Linting.Engine;

/// <summary>Looks at what a site would do, before a valve moves.</summary>
internal static class Linter
{
    /// <summary>Looks at a site that was read without an error.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates to look at.</param>
    /// <param name="units">The most work; null for what a site of its length may ask for.</param>
    /// <param name="isBesideOthers">Whether other sites have the other cores.</param>
    /// <param name="stop">Nobody needs the answer any more.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static LintReport Check(Site site, Horizon horizon, long? units = null, bool isBesideOthers = false, CancellationToken stop = default) =>
        Judged(Walk(site, horizon, units ?? Limits.CheckWorkOf(site.SourceLength), isBesideOthers, stop).Go(), site, horizon);

    /// <summary>Looks at a few dates of a site that has been checked: nothing is said of other dates, and no fix is tried again.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates to look at.</param>
    /// <param name="units">The most work.</param>
    public static LintReport CheckAgain(Site site, Horizon horizon, long units) =>
        Judged(new BoundedWalk(site, horizon, units) { IsRepeated = true }.Go(), site, horizon);

    private static BoundedWalk Walk(Site site, Horizon horizon, long units, bool isBesideOthers, CancellationToken stop) =>
        new(site, horizon, units) { Stop = stop, IsBesideOthers = isBesideOthers };

    private static LintReport Judged(LintReport report, Site site, Horizon horizon)
    {
        var judged = Acceptances.Apply(site.Acceptances, [.. InOrder(report.Findings)], horizon.From);
        return report with { Findings = [.. InOrder(FindingLimit.Apply(judged.Open))], Accepted = judged.Accepted };
    }

    private static IEnumerable<Finding> InOrder(IEnumerable<Finding> findings) =>
        findings.OrderBy(finding => finding.Primary.Location.Source.Path, StringComparer.Ordinal).ThenBy(finding => finding.Primary.Location.Span.Start);
}
