using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Words;

/// <summary>How findings that come, go or change are said.</summary>
internal static class FindingWords
{
    /// <summary><c>error: … [rule]</c></summary>
    public static string Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return $"{FindingSummary.WordOf(finding.Severity)}: {finding.Heading} [{finding.Rule.Slug}]";
    }

    /// <summary><c>garden.water:9:34</c></summary>
    public static string PlaceOf(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var place = finding.Primary.Location;
        return string.Create(CultureInfo.InvariantCulture, $"{SiteWords.Place(place)}:{place.Start.Column}");
    }

    /// <summary><c>1 new error, 2 findings gone</c>; empty where none comes or goes.</summary>
    public static string Counts(FindingChanges changes)
    {
        ArgumentNullException.ThrowIfNull(changes);
        var counts = changes.Appeared.CountBy(finding => finding.Severity).OrderByDescending(count => count.Key)
            .Select(count => string.Create(CultureInfo.InvariantCulture, $"{count.Value} new {WordOf(count.Key, count.Value)}")).ToList();
        Add(counts, changes.Gone.Length, "gone");
        Add(counts, changes.Accepted.Length, "accepted now");
        Add(counts, changes.Turned.Length, "changed");
        return string.Join(", ", counts);
    }

    private static void Add(List<string> counts, int count, string word)
    {
        if (count > 0) counts.Add($"{Phrases.Count(count, "finding")} {word}");
    }

    private static string WordOf(Severity severity, int count) => severity == Severity.Advice
        ? count == 1 ? "piece of advice" : "pieces of advice"
        : FindingSummary.WordOf(severity) + (count == 1 ? "" : "s");
}
