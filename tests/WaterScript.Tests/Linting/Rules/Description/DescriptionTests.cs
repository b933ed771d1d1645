using Xunit;

namespace WaterScript.Tests.Linting.Rules.Description;

/// <summary>What is described and not used, not watered, or not likely.</summary>
public class DescriptionTests
{
    private const string Site = "site plot { timezone Europe/Lisbon; effective 2026-03-01 }\nzone beds { output 1 }\n";
    private const string Morning = "schedule morning { every day; start at 06:00; steps { water beds for 10 min } }\n";

    [Theory]
    [InlineData("valve click latching { pulse 50 ms }", "click")]
    [InlineData("scale year { jul 110 % }", "year")]
    [InlineData("group all-beds = beds", "all-beds")]
    [InlineData("sequence round { water beds for 5 min }", "round")]
    [InlineData("let spell = 5 min", "spell")]
    [InlineData("let sown = 2026-04-01", "sown")]
    [InlineData("zone lawn { output 2 }", "lawn")]
    [InlineData("zone lawn { output 2; spare }", null)]
    [InlineData("group all-beds = beds\nschedule late { every day; start at 20:00; steps { water all-beds for 10 min } }", null)]
    [InlineData("let spell = 5 min\nsequence round { water beds for spell }\nschedule late { every day; start at 20:00; steps { run round } }", null)]
    [InlineData("zone lawn { output 2; trim 0 % }\nschedule late { every day; start at 20:00; steps { repeat 2 times { water lawn for 10 min } } }", null)]
    [InlineData(
        "zone lawn { output 2 }\nhold lawn from 2026-05-01 to 2026-05-03 because \"sown\"\nextra 2026-06-01 20:00 because \"new\" { water lawn for 10 min }",
        null)]
    public void What_nothing_uses_is_found_where_it_is_named(string line, string? name) =>
        Assert.Equal(name is null ? [] : [name], Lint.Of(Site + Morning + line, "unused").Select(finding => finding.Primary.Location.Text));

    [Theory]
    [InlineData("schedule test { manual; steps { water all for 1 min } }", new[] { "lawn" })]
    [InlineData("schedule test { manual; steps { water all for 1 min } }\nschedule again { manual; steps { water lawn for 1 min } }", new[] { "lawn" })]
    [InlineData("schedule test { manual; steps { water all for 1 min } }\nextra 2026-06-01 20:00 because \"new\" { water lawn for 10 min }", new string[0])]
    public void A_zone_that_only_a_hand_waters_is_found_once(string lines, string[] names) =>
        Assert.Equal(names, Lint.Of($"{Site}zone lawn {{ output 2 }}\n{Morning}{lines}", "manual-only").Select(finding => finding.Primary.Location.Text));

    [Fact]
    public void A_site_that_is_all_by_hand_is_left_alone() =>
        Assert.Empty(Lint.Of(Site + "schedule test { manual; steps { water all for 1 min } }", "manual-only"));

    [Theory]
    [InlineData("method spray", "3 h", 0)]
    [InlineData("method spray", "3 h 1 s", 1)]
    [InlineData("method rotor; longest 5 h", "4 h", 0)]
    [InlineData("method drip", "12 h", 0)]
    [InlineData("method drip", "12 h 1 s", 1)]
    public void A_run_of_hours_looks_like_another_unit(string heads, string length, int findings) =>
        Assert.Equal(findings, Lint.Of($"site plot {{ timezone Europe/Lisbon; effective 2026-03-01 }}\nzone beds {{ output 1; {heads} }}\n"
            + $"schedule a {{ every 2 days; start at 00:30; steps {{ water beds for {length} }} }}", "unlikely-value").Length);

    [Theory]
    [InlineData("50 ms", 0)]
    [InlineData("999 ms", 0)]
    [InlineData("1 s", 1)]
    public void A_pulse_in_seconds_looks_like_another_unit(string pulse, int findings) =>
        Assert.Equal(findings,
            Lint.Of($"{Site.Replace("output 1", "output 1; valve click", System.StringComparison.Ordinal)}{Morning}valve click latching {{ pulse {pulse} }}",
            "unlikely-value").Length);

    [Theory]
    [InlineData("200 m2", "1.9 m2", 1)]
    [InlineData("200 m2", "2 m2", 0)]
    [InlineData("2 ha", "200 m2", 0)]
    [InlineData("2 ha", "199 m2", 1)]
    public void An_area_in_a_hundredth_of_the_others_looks_like_another_unit(string others, string area, int findings)
    {
        var zones = string.Concat(Enumerable.Range(1, 3).Select(number => $"zone z{number} {{ output {number}; area {others} }}\n"));
        var text = $"site plot {{ timezone Europe/Lisbon; effective 2026-03-01 }}\n{zones}zone last {{ output 4; area {area} }}\n"
            + "schedule a { every day; start at 06:00; steps { water all for 5 min } }";
        Assert.Equal(findings, Lint.Of(text, "unlikely-value").Length);
    }
}
