using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;

namespace WaterScript.Linting.Engine;

/// <summary>Keeps of very many findings those that a person can read, and says how many more there are.</summary>
internal static class FindingLimit
{
    /// <summary>The first of each rule, and of those the gravest; the last of what is left out of a rule says so at the place of its first.</summary>
    /// <param name="findings">What was found, in order of place.</param>
    public static ImmutableArray<Finding> Apply(ImmutableArray<Finding> findings)
    {
        if (findings.Length <= Limits.FindingsPerRule) return findings;
        var kept = new HashSet<Finding>(ReferenceEqualityComparer.Instance);
        var notes = new List<Finding>();
        var room = Limits.FindingsPerSite;
        foreach (var rule in findings.GroupBy(finding => finding.Rule).OrderByDescending(rule => rule.Max(finding => finding.Severity))
            .ThenBy(rule => rule.Count()))
        {
            Finding[] all = [.. rule.OrderByDescending(finding => finding.Severity)];
            var shown = Math.Min(all.Length, Math.Min(room, Limits.FindingsPerRule));
            foreach (var finding in all.AsSpan(0, shown)) kept.Add(finding);
            room -= shown;
            if (shown < all.Length) notes.Add(More(all[shown], all.Length - shown));
        }

        return [.. findings.Where(kept.Contains), .. notes];
    }

    private static Finding More(Finding first, int more) =>
        Finding.At(ReadingRules.OverLimit, first.Primary.Location, string.Create(CultureInfo.InvariantCulture, $"more [{first.Rule.Slug}] than are shown"),
            "the first of them") with
        {
            Severity = first.Severity,
            Details = string.Create(CultureInfo.InvariantCulture,
                $"{more} more of [{first.Rule.Slug}]; a site shows {Limits.FindingsPerRule} of a rule, {Limits.FindingsPerSite} in all."),
            Help = "Fix the others first, then check again.",
        };
}
