using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;
using WaterScript.Tests.Binding;
using WaterScript.Timetables;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Hostile;

/// <summary>Small files that ask for endless work are answered by counted work, and say how far the check came.</summary>
public sealed class HostileSitesTests
{
    /// <summary>A part of what a check may do, so that all of them together are tested soon.</summary>
    private const long Units = Limits.CheckWork / 10;

    /// <summary>Two threads walk four times at the most; then come what is reported, and manual schedules.</summary>
    private const long MostWork = 11 * Units;

    /// <summary>The names of those that are tried.</summary>
    public static TheoryData<string> Names => [.. Samples.Some([.. HostileSites.All.Keys], 5)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Is_answered_within_its_work(string name)
    {
        var text = HostileSites.All[name];
        Assert.InRange(text.Length, 1, HostileSites.MostCharacters);
        var reading = Expect.Read(text);
        if (reading.Site is not { } site || reading.Findings.HasErrors) return;
        var asked = CheckHorizon.Of(site);
        var report = Linter.Check(site, asked, Units);
        Assert.InRange(report.Work, 0, MostWork);
        Assert.Equal(report.IsCut, report.Horizon != asked);
        Assert.Equal(report.IsCut, report.Findings.Any(IsTooMuch));
        Assert.InRange(report.Findings.Length, 0, Limits.FindingsPerSite + RuleCatalogue.Rules.Length + 2);
    }

    [Fact]
    public void Most_of_them_can_be_read()
    {
        var read = HostileSites.All.Values.Select(text => Expect.Read(text)).Count(reading => reading.Site is not null && !reading.Findings.HasErrors);
        Assert.InRange(read, 55, HostileSites.All.Count);
    }

    [Theory]
    [InlineData("passes-every-5-s")]
    [InlineData("hundreds-of-holds")]
    [InlineData("tank")]
    public void What_is_found_is_what_a_check_of_those_dates_finds(string name)
    {
        var site = Expect.Read(HostileSites.All[name]).Site!;
        var cut = Linter.Check(site, CheckHorizon.Of(site), Units);
        Assert.True(cut.IsCut);
        var whole = Linter.Check(site, cut.Horizon, long.MaxValue / 4);
        Assert.False(whole.IsCut);
        Assert.Equal(Told(whole), Told(cut));
    }

    /// <summary>Also where threads wait for one another.</summary>
    [Theory]
    [InlineData("pulses")]
    [InlineData("coprime-long")]
    [InlineData("sun-passes")]
    [InlineData("demand-of-all")]
    public void The_same_source_comes_equally_far_each_time(string name)
    {
        var site = Expect.Read(HostileSites.All[name]).Site!;
        var reports = Enumerable.Range(0, 8).AsParallel().WithDegreeOfParallelism(8).Select(_ => Linter.Check(site, CheckHorizon.Of(site), Units)).ToList();
        Assert.Single(reports.Select(report => (report.Horizon, string.Join('\n', report.Findings.Select(Expect.Shown)))).Distinct());
    }

    [Fact]
    public void It_says_which_statement_makes_the_work_and_from_when_on_nothing_was_checked()
    {
        var report = Of("passes-every-5-s");
        var finding = Assert.Single(report.Findings, IsTooMuch);
        Assert.Equal("repeat every 5 s until 24:00", finding.Primary.Location.Text);
        Assert.Equal("schedule x makes 100 % of the work", finding.Primary.Text);
        Assert.StartsWith("Nothing was checked from " + MomentWords.Date(report.Horizon.Until) + " on;", finding.Details, StringComparison.Ordinal);
        Assert.Null(report.ConflictProof);
    }

    [Fact]
    public void Where_one_date_is_too_much_none_is_checked()
    {
        var site = Expect.Read(HostileSites.All["repeat-in-repeat"]).Site!;
        var report = Linter.Check(site, CheckHorizon.Of(site), units: 1_000);
        Assert.Equal(report.Horizon.From, report.Horizon.Until);
        Assert.StartsWith("no date can be checked", Assert.Single(report.Findings).Heading, StringComparison.Ordinal);
    }

    [Fact]
    public void Very_many_findings_of_a_rule_are_counted_and_not_shown()
    {
        var site = Expect.Read(HostileSites.All["short-runs-of-all"]).Site!;
        var report = Linter.Check(site, Horizon.DaysFrom(site.Effective, 8), long.MaxValue / 4);
        Assert.Equal(Limits.FindingsPerRule, report.Findings.Count(finding => finding.Rule.Slug == "short-run"));
        var more = Assert.Single(report.Findings, finding => finding.Rule == ReadingRules.OverLimit);
        Assert.Equal("more [short-run] than are shown", more.Heading);
        Assert.Equal(Severity.Advice, more.Severity);
        Assert.StartsWith("17900 more of [short-run];", more.Details, StringComparison.Ordinal); // 300 lines of 60 zones, 100 shown
    }

    /// <summary>5,760 runs a day, of which the slow controller switches 144: what waits grows by some 5,500 a day.</summary>
    [Fact]
    public void What_a_spacing_keeps_waiting_has_a_limit_of_its_own()
    {
        const string text = Head + "schedule s { every day; start at 00:00; repeat every 1 min for 1440 passes; steps { water a, b, c, d for 10 s } }\n";
        var site = Expect.Read(text).Site!;
        var report = Linter.Check(site, Horizon.DaysFrom(site.Effective, 60), long.MaxValue / 4);
        Assert.Single(report.Findings, IsTooMuch);
        Assert.InRange(report.Horizon.Until, site.Effective.PlusDays(10), site.Effective.PlusDays(30));
    }

    private const string Head = """
        site s { timezone UTC; effective 2026-01-01 }
        controller quick { outputs 2 }
        controller slow { outputs 2; stagger 10 min }
        zone a { output 1 of quick }
        zone b { output 2 of quick }
        zone c { output 1 of slow }
        zone d { output 2 of slow }

        """;

    private static LintReport Of(string name)
    {
        var site = Expect.Read(HostileSites.All[name]).Site!;
        return Linter.Check(site, CheckHorizon.Of(site), Units);
    }

    private static bool IsTooMuch(Finding finding) =>
        finding.Rule == ReadingRules.OverLimit && finding.Severity == Severity.Error && finding.Heading.Contains("limit of work", StringComparison.Ordinal);

    /// <summary>Whether it is of a rule, or says that there is more of that rule.</summary>
    private static bool IsAbout(Finding finding, string rule) =>
        finding.Rule.Slug == rule || finding.Heading.Contains($"[{rule}]", StringComparison.Ordinal);

    /// <summary>Of what takes nothing in the dates that were reached nobody knows what it takes after them: a check that was cut does not say it.</summary>
    private static IEnumerable<string> Told(LintReport report) => report.Findings
        .Where(finding => !IsTooMuch(finding) && !IsAbout(finding, "takes-nothing") && finding.Happens?.Basis is null or Basis.Horizon)
        .Select(finding => $"{Expect.Shown(finding)} {finding.Happens?.First} {finding.Happens?.Last} {finding.Happens?.Times} {finding.Happens?.Days}");
}
