using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>Links of a page to other files of the repository, and to headings, lead somewhere.</summary>
public partial class LinkTests
{
    public static TheoryData<string> Pages => [.. Repository.Pages];

    [Theory]
    [MemberData(nameof(Pages))]
    public void Every_link_inside_the_repository_leads_somewhere(string page) =>
        Assert.All(Links().Matches(Repository.Read(page)), link => Assert.True(LeadsSomewhere(page, link.Groups["target"].Value), link.Value));

    private static bool LeadsSomewhere(string page, string target)
    {
        if (target.Contains("://", StringComparison.Ordinal))
            return true;

        var parts = target.Split('#');
        var path = parts[0].Length == 0 ? page : Path.Combine(Path.GetDirectoryName(page)!, parts[0]);
        return Path.Exists(Path.Combine(Repository.Root, path)) && (parts.Length == 1 || Anchors(path).Contains(parts[1]));
    }

    /// <summary>The anchors that a Markdown renderer gives to headings: lower case, spaces to hyphens, no other punctuation.</summary>
    private static IEnumerable<string> Anchors(string page) =>
        Headings().Matches(Repository.Read(page))
            .Select(match => Punctuation().Replace(match.Groups["text"].Value.Trim().ToLowerInvariant(), "").Replace(' ', '-'));

    [GeneratedRegex(@"\]\((?<target>[^)\s]+)\)")]
    private static partial Regex Links();

    [GeneratedRegex(@"^#+ (?<text>.+)$", RegexOptions.Multiline)]
    private static partial Regex Headings();

    [GeneratedRegex(@"[^\w \-]")]
    private static partial Regex Punctuation();
}
