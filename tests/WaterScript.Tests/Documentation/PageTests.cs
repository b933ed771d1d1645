using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>Whatever a page shows as a file, or as a part of one, comes to what the page says of it.</summary>
public class PageTests
{
    public static TheoryData<string> Pages => [.. FencedBlock.InPages("water").Select(block => block.Page).Distinct()];

    [Theory]
    [MemberData(nameof(Pages))]
    public void Every_snippet_of_a_page_is_what_the_page_says(string page)
    {
        List<FencedBlock> blocks = [.. FencedBlock.InPages("water").Where(block => block.Page == page)];
        var files = new MemoryFiles(Snippet.Included(blocks));

        var complaints = Snippet.Of(blocks).Select(snippet => Complaint(snippet, files)).OfType<string>().ToList();

        Assert.True(complaints.Count == 0, string.Join('\n', complaints));
    }

    [Fact]
    public void The_page_of_a_first_site_shows_the_balcony_as_it_is() =>
        Assert.Equal(
            Repository.Read("examples/balcony.water").ReplaceLineEndings("\n"),
            FencedBlock.InPages("water").First(block => block.Page == "docs/first-site.md").Text);

    private static string? Complaint(Snippet snippet, MemoryFiles files)
    {
        var source = SourceText.From("page.water", snippet.Text);
        var findings = SiteReader.Read(source, "page.water", files, DateTimeZoneProviders.Tzdb).Findings;
        return IsAsSaid(snippet, findings)
            ? null
            : $"{snippet}\n  should be {snippet.Verdict} {snippet.Slug}, found: {string.Join("; ", findings.Select(Describe))}\n";
    }

    private static bool IsAsSaid(Snippet snippet, FindingList findings) => snippet.Verdict switch
    {
        Verdict.Compiles => !findings.HasErrors && !findings.Any(finding => finding.Rule == ReadingRules.UnusualForm),
        Verdict.Fails => Weightiest(findings) is [var only] && only.Rule.Slug == snippet.Slug,
        _ => throw new ArgumentOutOfRangeException(nameof(snippet)),
    };

    /// <summary>The errors; where there are none, all findings.</summary>
    private static List<Finding> Weightiest(FindingList findings) =>
        [.. findings.Where(finding => !findings.HasErrors || finding.Severity == Severity.Error)];

    private static string Describe(Finding finding) => $"{finding.Heading} [{finding.Rule.Slug}]";
}
