using WaterScript.Diagnostics;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Diagnostics;

public class FindingListTests
{
    /// <summary>
    /// Two mistakes a zone, one of them found while it is read and one after: whichever way they are found, one line says that there are more, and it comes
    /// last.
    /// </summary>
    [Fact]
    public void A_file_with_more_errors_than_are_shown_says_so_once_and_last()
    {
        var zones = string.Join('\n', Enumerable.Range(1, 200).Select(zone => $"zone z{zone} {{\n  colour {zone}\n}}"));
        var findings = Expect.Read($"site plot {{\n  timezone Europe/Lisbon\n  effective 2026-03-01\n}}\n{zones}\n"
            + "schedule s { on mon; start at 06:00; steps { water z1 for 5 min } }").Findings;
        var errors = findings.Where(finding => finding.Severity == Severity.Error).ToList();
        Assert.Equal(Limits.ErrorsPerFile, errors.Count);
        Assert.Equal("over-limit", errors[^1].Rule.Slug);
        Assert.Single(errors, finding => finding.Rule.Slug == "over-limit");
        Assert.Equal(errors[..^1].OrderBy(finding => finding.Primary.Location.Span.Start), errors[..^1]);
    }
}
