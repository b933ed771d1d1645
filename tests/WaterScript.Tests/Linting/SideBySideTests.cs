using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Linting.BruteForce;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>Checks of outputs work on a thread of their own; what all of them find is what one thread would find.</summary>
public class SideBySideTests
{
    private static readonly int Sites = Samples.Of(150);
    private const int Days = 40;

    [Fact]
    public void Whoever_sees_openings_or_switchings_is_set_to_work_on_the_survey_of_the_outputs() => Assert.All(RuleCatalogue.Checks, kind =>
    {
        var site = Example.Read("examples/sports-ground.water").Site!;
        var rule = kind.Create(new LintContext(Timetable.Of(site, Horizon.DaysFrom(site.Effective, 1))));
        Assert.Equal(rule is IOpeningObserver or ISwitchingObserver, kind.VisitsOutputs);
        Assert.False(kind.VisitsOutputs && rule is IDayObserver or IRunObserver or IDemandObserver, kind.Rule.Slug);
    });

    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void An_example_has_the_findings_that_one_thread_finds(string path) => SameFindings(Example.Read(path).Site!);

    [Fact]
    public void Random_sites_have_the_findings_that_one_thread_finds()
    {
        var found = 0;
        for (var seed = 1; seed <= Sites; seed++)
        {
            if (RandomRunsTests.Read(RandomSketch.Of(seed).Text, out _) is { } site) found += SameFindings(site);
        }

        Assert.True(found > Sites, $"{found} findings");
    }

    /// <summary>Manual schedules are walked by themselves, each on one thread, so they are left out.</summary>
    private static int SameFindings(Site site)
    {
        var horizon = Horizon.DaysFrom(site.Effective, Days);
        var found = Linter.Check(site with { Acceptances = [] }, horizon).Findings.Where(finding =>
            !finding.Details.StartsWith("In a pass of", StringComparison.Ordinal)).ToArray();
        Assert.Equal(OnOneThread(site, horizon).Select(Shown).Order(), found.Select(Shown).Order());
        return found.Length;
    }

    private static IEnumerable<Finding> OnOneThread(Site site, Horizon horizon)
    {
        var context = new LintContext(Timetable.Of(site, horizon));
        IRule[] rules = [.. RuleCatalogue.Checks.Select(kind => kind.Create(context))];
        RuleWalk.Show(context, context, rules);
        return rules.SelectMany(rule => rule.Findings());
    }

    private static string Shown(Finding finding) =>
        $"{finding.Rule.Slug} {finding.Primary.Location.Span.Start} {finding.Heading} {finding.Details} {finding.Happens} {finding.Help}";
}
