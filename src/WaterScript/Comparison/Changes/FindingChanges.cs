using System.Collections.Immutable;
using WaterScript.Diagnostics;

namespace WaterScript.Comparison;

/// <summary>Tells findings of two versions of a site apart by what they say of which words, whatever the layout and the file.</summary>
internal static class FindingChanges
{
    /// <summary>The findings that are not among others; of several that are alike, as many as are more.</summary>
    public static ImmutableArray<Finding> Without(ImmutableArray<Finding> findings, ImmutableArray<Finding> others)
    {
        var left = others.CountBy(KeyOf).ToDictionary();
        return [.. findings.Where(finding => !Take(KeyOf(finding), left))];
    }

    private static bool Take((string Rule, string Heading, string Written) key, Dictionary<(string Rule, string Heading, string Written), int> left)
    {
        if (left.GetValueOrDefault(key) == 0) return false;
        left[key]--;
        return true;
    }

    /// <summary>Blanks, line ends and semicolons are layout.</summary>
    private static (string Rule, string Heading, string Written) KeyOf(Finding finding) =>
        (finding.Rule.Slug, finding.Heading, string.Concat(finding.Primary.Location.Text.Where(letter => !char.IsWhiteSpace(letter) && letter != ';')));
}
