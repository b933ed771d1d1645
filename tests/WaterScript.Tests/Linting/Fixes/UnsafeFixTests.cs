using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Simulation;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Linting.Fixes;

/// <summary>A fix that needs a person's yes fixes what it is proposed for.</summary>
public class UnsafeFixTests
{
    public static TheoryData<string> Slugs => [.. Fixed];

    private static string[] Fixed { get; } =
        [.. RuleCatalogue.Rules.Where(rule => rule.Fires.Length > 0 && FixIn(rule) is { IsSafe: false }).Select(rule => rule.Slug)];

    [Theory]
    [MemberData(nameof(Slugs))]
    public void Applied_to_the_example_of_its_rule_it_fixes_it(string slug)
    {
        var rule = RuleCatalogue.Find(slug)!;
        var corrected = FixedText(FixIn(rule)!);
        Assert.DoesNotContain(FindingsIn(corrected), finding => finding.Rule == rule || finding.Severity == Severity.Error);
        Assert.NotEmpty(rule.FixSafety);
    }

    [Fact]
    public void Rules_about_what_comes_too_soon_or_too_much_at_once_have_one() =>
        Assert.Superset(
            new HashSet<string> { "pass-overlap", "rest-too-short", "change-over-too-short", "zone-twice", "flow-over-supply", "holding-current",
                "too-many-zones",
                "capacitor-not-recharged", "valves-left-open", "runoff" },
            Fixed.ToHashSet());

    [Theory]
    [InlineData("start at 06:00, 06:20", "start at 06:00, 06:40")]
    [InlineData("start at 06:00; repeat every 20 min for 3 passes", "start at 06:00; repeat every 40 min for 3 passes")]
    [InlineData("start at 06:00; repeat every 20 min until 08:00", "start at 06:00; repeat every 40 min until 08:00")]
    public void A_rest_is_made_to_fit_by_the_least_that_does(string starts, string corrected)
    {
        string Site(string text) => "site plot { timezone Etc/UTC; effective 2026-03-01 }\nzone beds { output 1; rest 30 min }\n"
            + $"schedule morning {{ every day; {text}; steps {{ water beds for 10 min }} }}\n";
        var finding = Assert.Single(Lint.Of(Site(starts), "rest-too-short"));
        Assert.Equal(Site(corrected), FixedText(finding.Fix!));
        Assert.Empty(Lint.Of(Site(corrected), "rest-too-short"));
    }

    /// <summary>
    /// The misting comes on the hour from 06:00 to 20:00 for 5 min and needs with the weaning 20 L/min of 15. Between two mistings are
    /// 55 min: 10 min fit in, 57 min do not.
    /// </summary>
    [Theory]
    [InlineData("10 min", "Start weaning at 08:05, which clears it.", true)]
    [InlineData("57 min", "Start weaning later.", false)]
    public void A_later_start_is_tried_before_it_is_proposed(string length, string help, bool isFixed)
    {
        var source =
            $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            supply tap { flow 15 L/min }
            zone bench { output 1; flow 10 L/min }
            zone trays { output 2; flow 10 L/min }
            schedule misting { every day; start at 06:00; repeat every 1 h until 20:00; steps { water bench for 5 min } }
            schedule weaning { on sat; start at 08:00; steps { water trays for {{length}} } }
            """;
        var finding = Assert.Single(Lint.Of(source, "flow-over-supply"));
        Assert.Equal(help, finding.Help);
        if (isFixed) Assert.Empty(Lint.Of(FixedText(finding.Fix!), "flow-over-supply"));
        else Assert.Null(finding.Fix);
    }

    /// <summary>
    /// From 1 March 2026 to 29 February 2028 are 104 Saturdays and 105 Sundays. From 08:05 to 08:23 the weaning meets the misting of 08:20 on Sundays.
    /// </summary>
    [Fact]
    public void What_a_later_start_leaves_is_said()
    {
        const string Source =
            """
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            supply tap { flow 15 L/min }
            zone bench { output 1; flow 10 L/min }
            zone trays { output 2; flow 10 L/min }
            schedule misting { every day; start at 08:00 on mon to sat; start at 08:00 on sun; start at 08:20 on sun; steps { water bench for 5 min } }
            schedule weaning { on sat, sun; start at 08:00; steps { water trays for 18 min } }
            """;
        var finding = Assert.Single(Lint.Of(Source, "flow-over-supply"));
        Assert.Equal("Start weaning at 08:05, which clears 104 of the 209.", finding.Help);
        Assert.Equal(105, Assert.Single(Lint.Of(FixedText(finding.Fix!), "flow-over-supply")).Happens!.Times);
    }

    private static Fix? FixIn(Rule rule) => FindingsIn(rule.Fires).Where(finding => finding.Rule == rule).Select(finding => finding.Fix).FirstOrDefault();

    private static string FixedText(Fix fix)
    {
        Assert.False(fix.IsSafe);
        return Assert.Single(FixSet.Apply([fix])).Value.Text;
    }

    private static IReadOnlyList<Finding> FindingsIn(string text)
    {
        var reading = Expect.Read(text.ReplaceLineEndings("\n"));
        var isSound = reading is { Site: not null, Findings.HasErrors: false };
        return [.. reading.Findings, .. isSound ? Linter.Check(reading.Site!, CheckHorizon.Of(reading.Site!)).Findings : []];
    }
}
