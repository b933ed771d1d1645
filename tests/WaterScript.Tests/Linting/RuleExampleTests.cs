using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>The examples on the pages of the rules are run: one that fires does so exactly once, and fixed it is silent.</summary>
public class RuleExampleTests
{
    public static TheoryData<string> Slugs => [.. RuleCatalogue.Rules.Where(rule => rule.Fires.Length > 0).Select(rule => rule.Slug)];

    [Theory]
    [MemberData(nameof(Slugs))]
    public void The_example_fires_exactly_once_and_nothing_graver_is_in_it(string slug)
    {
        var rule = RuleCatalogue.Find(slug)!;
        var findings = FindingsIn(rule.Fires);
        Assert.True(findings.Count(finding => finding.Rule == rule) == 1, string.Join('\n', findings.Select(Expect.Shown)));
        Assert.DoesNotContain(findings, finding => finding.Rule != rule && finding.Severity == Severity.Error);
    }

    [Theory]
    [MemberData(nameof(Slugs))]
    public void Fixed_it_is_silent(string slug)
    {
        var rule = RuleCatalogue.Find(slug)!;
        Assert.NotEmpty(rule.Fixed);
        Assert.Empty(FindingsIn(rule.Fixed).Where(finding => finding.Rule == rule || finding.Severity == Severity.Error).Select(Expect.Shown));
    }

    private static IReadOnlyList<Finding> FindingsIn(string text)
    {
        var reading = Expect.Read(text.ReplaceLineEndings("\n"));
        var isSound = reading is { Site: not null, Findings.HasErrors: false };
        return [.. reading.Findings, .. isSound ? Linter.Check(reading.Site!, CheckHorizon.Of(reading.Site!)).Findings : []];
    }
}
