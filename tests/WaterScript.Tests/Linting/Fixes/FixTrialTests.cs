using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Tests.Cases;
using WaterScript.Tests.Documents.Reports;
using WaterScript.Tests.Simulation;
using Xunit;

namespace WaterScript.Tests.Linting.Fixes;

/// <summary>
/// What is proposed is applied literally: the file reads, what it was proposed for is gone or comes less often, and no error or warning is there that was
/// not before.
/// </summary>
public class FixTrialTests
{
    public static TheoryData<string> Names => CaseFile.Of("rules");

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, Samples.Of(400))];

    [Theory]
    [MemberData(nameof(Names))]
    public void What_is_proposed_for_a_case_does_no_harm(string name) => Judge(CaseFile.Source(name).Text);

    [Theory]
    [MemberData(nameof(Seeds))]
    public void What_is_proposed_for_a_random_site_does_no_harm(int seed) => Judge(RandomSource.Of(seed).Text);

    private static void Judge(string text)
    {
        var site = Checked.Of(text);
        foreach (var finding in site.Findings.Where(finding => finding.Fix is { IsSafe: false, Edits.IsEmpty: false }))
        {
            var after = Checked.Of(Assert.Single(FixSet.Apply([finding.Fix!])).Value.Text);
            var isRead = site.Lint is not null;
            Assert.True(!isRead || after.Lint is not null, $"{finding.Heading}: no longer read after {finding.Fix!.Title}");
            Assert.True(Weight(after, finding.Rule).CompareTo(Weight(site, finding.Rule)) < 0, $"{finding.Heading}: not cleared by {finding.Fix!.Title}");
            var brought = Grave(after, isRead).Except(Grave(site, isRead)).Where(rule => rule != finding.Rule);
            Assert.True(!brought.Any(), $"{finding.Heading}: {finding.Fix!.Title} brings {string.Join(", ", brought.Select(rule => rule.Slug))}");
        }
    }

    private static (int Count, long Times) Weight(CheckedSite site, Rule rule)
    {
        var of = site.Findings.Where(finding => finding.Rule == rule).ToArray();
        return (of.Length, of.Sum(finding => finding.Happens?.Times ?? 0));
    }

    private static IEnumerable<Rule> Grave(CheckedSite site, bool isRead) => site.Findings
        .Where(finding => finding.Severity > Severity.Advice && (isRead || finding.Rule.Category == RuleCategory.Reading))
        .Select(finding => finding.Rule).Distinct();
}
