using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Linting.Baselines;

/// <summary>
/// What is found in files that several of the sites read. It is handed out once, with the first of them; and what one of them does not use is no finding
/// where another one does.
/// </summary>
internal sealed class SharedFindings
{
    private readonly Dictionary<string, int> _readers = new(StringComparer.Ordinal);
    private readonly Dictionary<(Rule Rule, string Path, TextSpan Place), int> _unusedIn = [];
    private readonly HashSet<(Rule Rule, string Path, TextSpan Place, string Heading)> _given = [];

    private SharedFindings()
    {
    }

    /// <summary>
    /// Hands sites out in their order, each as soon as it is there, unless it finds something unused: then all the others have to be there to be asked.
    /// </summary>
    public static IEnumerable<CheckedSite> Of(IEnumerable<CheckedSite> sites)
    {
        ArgumentNullException.ThrowIfNull(sites);
        var shared = new SharedFindings();
        var ahead = new Queue<CheckedSite>();
        using var left = sites.GetEnumerator();
        while (ahead.Count > 0 || shared.TryRead(left, ahead))
        {
            var site = ahead.Dequeue();
            if (site.Findings.Any(finding => finding.Rule.IsAboutUse))
            {
                while (shared.TryRead(left, ahead))
                {
                }
            }

            yield return shared.OnlyNew(site);
        }
    }

    private bool TryRead(IEnumerator<CheckedSite> left, Queue<CheckedSite> ahead)
    {
        if (!left.MoveNext()) return false;
        var site = left.Current;
        foreach (var file in site.Reading.Files) Count(_readers, file.Source.Path);
        foreach (var key in site.Findings.Where(finding => finding.Rule.IsAboutUse).Select(KeyOf).Distinct()) Count(_unusedIn, key);
        ahead.Enqueue(site);
        return true;
    }

    private static void Count<TKey>(Dictionary<TKey, int> counts, TKey key)
        where TKey : notnull => counts[key] = counts.GetValueOrDefault(key) + 1;

    private CheckedSite OnlyNew(CheckedSite site)
    {
        ImmutableArray<Finding> unused = [.. site.Findings.Where(finding => !finding.Rule.IsAboutUse || !IsUsedElsewhere(finding))];
        ImmutableArray<Finding> once = [.. unused.Where(IsNew)];
        foreach (var finding in once) _given.Add(WordsOf(finding));
        return site with { Findings = once, Shared = unused.Length - once.Length };
    }

    /// <summary>Whether a site that reads the same file does not find it; one with an error, which was not checked, may use anything.</summary>
    private bool IsUsedElsewhere(Finding finding) => _unusedIn[KeyOf(finding)] < _readers.GetValueOrDefault(finding.Primary.Location.Source.Path);

    private bool IsNew(Finding finding) => !_given.Contains(WordsOf(finding));

    private static (Rule Rule, string Path, TextSpan Place) KeyOf(Finding finding) =>
        (finding.Rule, finding.Primary.Location.Source.Path, finding.Primary.Location.Span);

    private static (Rule Rule, string Path, TextSpan Place, string Heading) WordsOf(Finding finding) =>
        (finding.Rule, finding.Primary.Location.Source.Path, finding.Primary.Location.Span, finding.Heading);
}
