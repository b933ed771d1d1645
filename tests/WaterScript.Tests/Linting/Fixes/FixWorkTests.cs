using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Linting.Fixes;

/// <summary>Finding out which fixes do no harm ends when it is more work than it may be, and how many are left is counted.</summary>
public sealed class FixWorkTests
{
    /// <summary>Two safe fixes, of which the second would give an error: the schedules would start after one another.</summary>
    private const string Text = "site s { timezone Europe/Lisbon; effective 2026-03-01 }\nzone a { output 1; flow 10L/min }\n"
        + "schedule morning { start after evening; steps { water a for 10 min } }\n"
        + "schedule evening { start after mornin; steps { water a for 10 min } }\n";

    [Fact]
    public void Within_its_work_each_fix_is_applied_or_refused()
    {
        var corrected = Fix(work: 0);
        Assert.Equal((1, 1, 0), (corrected.Applied.Length, corrected.Refused.Length, corrected.Untried));
    }

    [Fact]
    public void Beyond_its_work_the_rest_is_counted()
    {
        var corrected = Fix(work: Limits.FixChecks * Limits.CheckWorkOf(Text.Length) + 1);
        Assert.Equal((0, 0, 2), (corrected.Applied.Length, corrected.Refused.Length, corrected.Untried));
    }

    [Fact]
    public void A_longer_file_may_take_another_try()
    {
        var corrected = Fix(work: Limits.FixChecks * Limits.CheckWorkOf(Text.Length) + 1, "# a line of words, as files have them\n");
        Assert.Equal((1, 0, 1), (corrected.Applied.Length, corrected.Refused.Length, corrected.Untried));
    }

    /// <summary>Fixes the site when a try counts as so much work.</summary>
    private static FixedSite Fix(long work, string before = "")
    {
        var target = new FixTarget(texts => Tried(texts.IsEmpty ? before + Text : texts.Values.Single().Text, work));
        return new FixApplier([target]).Fix(target);
    }

    private static CheckedSite Tried(string text, long work)
    {
        var reading = Expect.Read(text);
        var at = CheckedSite.Of("site.water", reading);
        return at with { Lint = new LintReport(default!, [], [], []) { Work = work }, Findings = reading.Findings.ToImmutableArray() };
    }
}
