using FsCheck;
using FsCheck.Fluent;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>
/// On thousands of sites nobody thought of, each rule says what a judge says that looks at every second and at every pair, and knows nothing of the rule.
/// </summary>
public sealed class SameVerdictTests
{
    private static readonly int SitesEach = Samples.OfBatch(250);

    /// <summary>So often each rule is to be broken and kept; in a part of the sites a rare thing may be missing.</summary>
    private static readonly int Least = Samples.AreAll ? 5 : 0;

    private const int Days = 10;

    public static TheoryData<int> Batches => [.. Samples.Batches(8).Select(batch => batch + 1)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_sites_have_the_findings_of_brute_force(int batch)
    {
        var tally = Judge.All.ToDictionary(judge => judge.Slug, _ => (Broken: 0, Kept: 0));
        var sketches = Arb.From(Gen.Choose(0, int.MaxValue).Select(RandomSketch.Of), sketch => sketch.Smaller());
        Prop.ForAll(sketches, sketch => Agree(sketch, tally)).Check(Config.QuickThrowOnFailure.WithMaxTest(SitesEach).WithReplay((ulong)batch, 2027));
        Assert.All(tally, each => Assert.True(each.Value.Broken >= Least && each.Value.Kept >= Least, each.ToString()));
    }

    private static void Agree(Sketch sketch, Dictionary<string, (int Broken, int Kept)> tally)
    {
        if (RandomRunsTests.Read(sketch.Text, out _) is not { } site) return;
        var horizon = Horizon.DaysFrom(site.Effective, Days);
        if (Evidence.Of(site, horizon) is not { } evidence) return;
        var findings = Linter.Check(site, horizon).Findings;
        foreach (var judge in Judge.All)
        {
            var verdict = new Verdict(judge, evidence, findings, sketch.Text);
            if (verdict.Difference() is { } difference) Assert.Fail(difference);
            var (broken, kept) = tally[judge.Slug];
            tally[judge.Slug] = verdict.IsBroken ? (broken + 1, kept) : (broken, kept + 1);
        }
    }
}
