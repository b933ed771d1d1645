using WaterScript.Diagnostics;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>What a user accepts is kept with its reason and no longer counts; a line that accepts nothing is reported.</summary>
public class AcceptTests
{
    /// <summary>Both schedules start in the hour that Lisbon's clocks skip on 29 March 2026 (IANA time-zone data).</summary>
    private static string Site(string atTop = "", string inFirst = "", string inSecond = "") =>
        $$"""
        site plot { timezone Europe/Lisbon; effective 2026-03-01 }
        zone a { output 1 }
        zone b { output 2 }
        {{atTop}}
        schedule one { every day; start at 01:10; {{inFirst}}; steps { water a for 10 min } }
        schedule two { every day; start at 01:40; {{inSecond}}; steps { water b for 10 min } }
        """;

    [Theory]
    [InlineData("", "", 2, 0)]
    [InlineData("accept skipped-time because \"night\"", "", 0, 2)]
    [InlineData("", "accept skipped-time because \"night\"", 1, 1)]
    [InlineData("", "accept skipped-time because \"night\" until 2026-03-30", 1, 1)]
    [InlineData("", "accept skipped-time because \"night\" until 2026-03-29", 2, 0)]
    public void It_holds_in_its_scope_and_until_its_date(string atTop, string inFirst, int open, int accepted)
    {
        var report = Lint.Of(Site(atTop, inFirst));

        Assert.Equal(open, report.Findings.Count(finding => finding.Rule.Slug == "skipped-time"));
        Assert.Equal(accepted, report.Accepted.Length);
        Assert.All(report.Accepted, entry => Assert.Equal("night", entry.Acceptance.Because));
    }

    [Theory]
    [InlineData("accept never-due because \"winter\"", "not found here")]
    [InlineData("accept skipped-time because \"night\" until 2026-03-29", "found, but not where this accepts it")]
    [InlineData("accept skipped-time because \"night\" until 2026-03-01", "ended before Sun 1 Mar 2026, where the check begins")]
    public void One_that_accepts_nothing_is_reported_with_a_fix(string line, string why)
    {
        var finding = Assert.Single(Lint.Of(Site(inSecond: line), "unused-accept"));

        Assert.Equal(why, finding.Primary.Text);
        Assert.Equal(line, finding.Primary.Location.Text);
        Assert.True(finding.Fix is { IsSafe: true, Edits: [{ Replacement: "" }] });
    }

    [Theory]
    [InlineData("accept ‹skiped-time› because \"so\"", "unknown-name", "Write `skipped-time`.")]
    [InlineData("accept ‹midday-waterin› because \"so\"", "unknown-name", "Write `midday-watering`.")]
    [InlineData("accept ‹syntax› because \"so\"", "contradiction", "Fix what it finds, and delete this line.")]
    public void A_rule_that_is_not_there_or_cannot_be_accepted_is_an_error(string line, string slug, string help)
    {
        var text = Site(atTop: line);
        var finding = Assert.Single(Lint.Of(text, slug));

        Assert.Equal(Severity.Error, finding.Severity);
        Assert.Equal(help, finding.Help);
        Expect.HoldPlace(text, finding);
    }
}
