using System.Collections.Immutable;
using System.Text.RegularExpressions;
using WaterScript.Diagnostics;

namespace WaterScript.Answers.Diff;

/// <summary>Distinguishes findings of two versions of a site by what they say of which words, whatever the layout and the file.</summary>
internal static partial class FindingChanges
{
    /// <summary>
    /// The findings that are not among others; of several that are alike, as many as are more. A finding whose words stay, in a line of which only numbers
    /// change, such as a time, is the same one.
    /// </summary>
    public static ImmutableArray<Finding> Without(ImmutableArray<Finding> findings, ImmutableArray<Finding> others) =>
        Without(Without(findings, others, KeyOf), Without(others, findings, KeyOf), KeyOfLine);

    private static ImmutableArray<Finding> Without(
        ImmutableArray<Finding> findings, ImmutableArray<Finding> others, Func<Finding, (string Rule, string Heading, string Written)> keyOf)
    {
        var left = others.CountBy(keyOf).ToDictionary();
        return [.. findings.Where(finding => !Take(keyOf(finding), left))];
    }

    private static bool Take((string Rule, string Heading, string Written) key, Dictionary<(string Rule, string Heading, string Written), int> left)
    {
        if (left.GetValueOrDefault(key) == 0) return false;
        left[key]--;
        return true;
    }

    private static (string Rule, string Heading, string Written) KeyOf(Finding finding) =>
        (finding.Rule.Slug, finding.Heading, Packed(finding.Primary.Location.Text));

    private static (string Rule, string Heading, string Written) KeyOfLine(Finding finding)
    {
        var place = finding.Primary.Location;
        return (finding.Rule.Slug, finding.Heading, Packed(Number().Replace(place.Source.Slice(place.Source.LineSpan(place.Start.Line)), "")));
    }

    /// <summary>Blanks, line ends and semicolons are layout.</summary>
    private static string Packed(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter) && letter != ';'));

    /// <summary>Digits that are no part of a name.</summary>
    [GeneratedRegex("(?<![a-z0-9-])[0-9]+", RegexOptions.CultureInvariant)]
    private static partial Regex Number();
}
