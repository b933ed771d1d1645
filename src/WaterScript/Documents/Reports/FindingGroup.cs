using System.Collections.Immutable;
using WaterScript.Diagnostics;

namespace WaterScript.Documents.Reports;

/// <summary>A finding as it is printed, with those that have the same cause.</summary>
/// <param name="Finding">The finding.</param>
/// <param name="Others">Those that go with it, of which the heading is printed.</param>
internal sealed record FindingGroup(Finding Finding, ImmutableArray<Finding> Others)
{
    /// <summary>Findings of one rule that are all printed.</summary>
    private const int MostOfRule = 20;

    /// <summary>Findings of one rule that are printed where there are more than that.</summary>
    private const int FewOfRule = 3;

    /// <summary>Further findings of its rule that are not printed.</summary>
    public int More { get; private init; }

    /// <summary>The findings of a site, in their order.</summary>
    /// <param name="findings">All of them.</param>
    /// <param name="all">Whether all are shown, however many there are of one rule.</param>
    public static IEnumerable<FindingGroup> Of(ImmutableArray<Finding> findings, bool all)
    {
        var groups = new List<FindingGroup>();
        foreach (var finding in findings)
        {
            if (groups is [.., var last] && GoesWith(last.Finding, finding)) groups[^1] = last with { Others = last.Others.Add(finding) };
            else groups.Add(new FindingGroup(finding, []));
        }

        return all ? groups : Few(groups);
    }

    /// <summary>The same without what is printed once for all.</summary>
    public FindingGroup Without(IReadOnlySet<string> assumptions)
    {
        ArgumentNullException.ThrowIfNull(assumptions);
        return assumptions.Contains(Finding.Assumed) ? this with { Finding = Finding with { Assumed = "" } } : this;
    }

    private static IEnumerable<FindingGroup> Few(List<FindingGroup> groups)
    {
        var counts = groups.CountBy(group => group.Finding.Rule.Slug).ToDictionary();
        var shown = new Dictionary<string, int>();
        foreach (var group in groups)
        {
            var slug = group.Finding.Rule.Slug;
            var number = shown[slug] = shown.GetValueOrDefault(slug) + 1;
            if (counts[slug] <= MostOfRule || number < FewOfRule) yield return group;
            else if (number == FewOfRule) yield return group with { More = counts[slug] - FewOfRule };
        }
    }

    /// <summary>Whether a finding is the consequence of the one before: at the same place or with the same edit, by a rule that names the other's.</summary>
    private static bool GoesWith(Finding first, Finding second) =>
        second.Rule.GoesWith == first.Rule.Slug && (second.Primary.Location == first.Primary.Location || HasEditsOf(first.Fix, second.Fix));

    private static bool HasEditsOf(Fix? first, Fix? second) =>
        first is not null && second is not null && first.Edits.SequenceEqual(second.Edits);
}
