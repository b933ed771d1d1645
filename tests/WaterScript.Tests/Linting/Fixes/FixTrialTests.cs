using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Tests.Cases;
using WaterScript.Tests.Documents.Reports;
using WaterScript.Tests.Linting.BruteForce;
using WaterScript.Tests.Simulation;
using Xunit;
using Xunit.Abstractions;

namespace WaterScript.Tests.Linting.Fixes;

/// <summary>
/// What is proposed, and what is applied without a question, is applied literally: the file reads, what it was proposed for is gone or comes less often,
/// and no error or warning is there that was not before.
/// </summary>
/// <param name="output">Where it is said how many proposals were tried.</param>
public class FixTrialTests(ITestOutputHelper output)
{
    private const int LeastOfRandomSites = 0;

    private static readonly int InBatch = Samples.OfBatch(10), LeastOfSketches = Samples.AreAll ? 1 : 0;

    public static TheoryData<string> Names => CaseFile.Of("rules");

    public static TheoryData<int> Batches => [.. Enumerable.Range(0, Samples.Of(40))];

    [Theory]
    [MemberData(nameof(Names))]
    public void What_is_proposed_for_a_case_does_no_harm(string name) => Judge(name, CaseFile.Source(name).Text);

    [Theory]
    [MemberData(nameof(Batches))]
    public void What_is_proposed_for_random_sites_does_no_harm(int batch) => JudgeBatch(batch, seed => RandomSource.Of(seed).Text, LeastOfRandomSites);

    /// <summary>Sites with limits that they now and then break.</summary>
    [Theory]
    [MemberData(nameof(Batches))]
    public void What_is_proposed_for_sites_full_of_limits_does_no_harm(int batch) => JudgeBatch(batch, seed => RandomSketch.Of(seed).Text, LeastOfSketches);

    /// <summary>
    /// The round ends at 17:05, so noon could wait for it. It has only to water on the same dates: on Sundays there is no round, and with <c>start after</c>
    /// no noon either.
    /// </summary>
    [Theory]
    [InlineData("every day", "start after late")]
    [InlineData("on mon to sat", null)]
    public void To_start_after_another_is_proposed_where_no_watering_is_lost(string days, string? written)
    {
        var site = Checked.Of(
            $$"""
            site n { timezone Europe/Lisbon; effective 2026-03-01 }
            supply tap { flow 15 L/min }
            controller box { outputs 4; schedules may-overlap }
            zone a { output 1; flow 10 L/min }
            zone b { output 2; flow 10 L/min }
            schedule late { {{days}}; start at 07:00; repeat every 20 min for 31 passes; steps { water a for 5 min } }
            schedule noon { every day; start at 12:00; steps { water b for 17 min } }
            """);
        var finding = Assert.Single(site.Findings, finding => finding.Rule.Slug == "flow-over-supply");
        Assert.Equal(written is null ? "Start noon later." : $"Write `{written}`.", finding.Help);
        Assert.Equal(written is null, finding.Fix is null);
    }

    /// <summary>Lawn and beds one after the other need 10 h; the restriction leaves 8 h.</summary>
    [Fact]
    public void What_brings_another_error_is_named_with_it_and_not_proposed()
    {
        var site = Checked.Of(
            """
            site n { timezone Europe/Lisbon; effective 2026-03-01 }
            supply tap { flow 15 L/min }
            zone lawn { output 1; flow 10 L/min }
            zone beds { output 2; flow 10 L/min }
            restriction town { allow between 22:00 and 06:00 }
            schedule night { on tue; start at 22:00; steps { water lawn + beds for 5 h } }
            """);
        var finding = Assert.Single(site.Findings, finding => finding.Rule.Slug == "flow-over-supply");
        Assert.Equal("Water them one after the other; but that brings: schedule night needs 10 h, has 8 h [window-too-short].", finding.Help);
        Assert.Null(finding.Fix);
    }

    private void JudgeBatch(int batch, Func<int, string> textOf, int least)
    {
        var tried = Enumerable.Range((batch * InBatch) + 1, InBatch).Sum(seed => Judge($"seed {seed}", textOf(seed)));
        output.WriteLine($"{tried} proposals");
        Assert.True(tried >= least, $"only {tried} proposals were tried");
    }

    /// <summary>Applies each proposal of a site.</summary>
    /// <returns>How many there are.</returns>
    private static int Judge(string name, string text)
    {
        var tried = 0;
        var site = Checked.Of(text);
        foreach (var finding in site.Findings.Where(finding => finding.Fix is { Edits.IsEmpty: false }))
        {
            var after = Checked.Of(Assert.Single(FixSet.Apply([finding.Fix!])).Value.Text);
            var isRead = site.Lint is not null;
            Assert.True(!isRead || after.Lint is not null, $"{name}: {finding.Heading}: no longer read after {finding.Fix!.Title}");
            var (left, known) = (Weight(after, finding.Rule), Weight(site, finding.Rule));
            Assert.True(left.Count <= known.Count && left.Times <= known.Times && left != known,
                $"{name}: {finding.Heading}: not cleared by {finding.Fix!.Title}");
            var brought = Grave(after, isRead).Except(Grave(site, isRead)).Where(rule => rule != finding.Rule);
            Assert.True(!brought.Any(), $"{name}: {finding.Heading}: {finding.Fix!.Title} brings {string.Join(", ", brought.Select(rule => rule.Slug))}");
            tried++;
        }

        return tried;
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
