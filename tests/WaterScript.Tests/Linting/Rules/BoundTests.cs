using WaterScript.Linting.Engine;
using WaterScript.Linting.Rules.Electrical;
using WaterScript.Tests.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Linting.Rules;

/// <summary>Bounds of rules, and what they say at them: one thing is just within, another just over. Worked out by hand from their pages.</summary>
public class BoundTests
{
    private const string Daily = "every day; start at 06:00; steps { water a for 10 min }";

    /// <summary>What begins at 10:00 is the matter of another rule. Sunrise is at 06:00, or an hour around it, in March at the equator.</summary>
    [Theory]
    [InlineData("09:59:59", true)]
    [InlineData("10:00", false)]
    [InlineData("10:00:05", false)]
    public void The_morning_ends_at_ten(string start, bool isFound) => Assert.Equal(isFound, IsFound("ends-late",
        "site s { timezone Etc/UTC; effective 2026-03-01; location 0 N 0 E }\nzone a { output 1; method spray }\n",
        Daily.Replace("06:00", start, StringComparison.Ordinal)));

    [Fact]
    public void A_second_before_the_master_is_before_it()
    {
        var site = Of(
            """
            site s { timezone Etc/UTC; effective 2026-03-01 }
            supply tap { flow 20 L/min }
            zone a { output 1; flow 10 L/min }
            master main { output 7; zones a; starts 2 s after zones }
            pump lift { output 8; zones a; load 60 mA; starts 1 s after zones }

            """, Daily);
        var finding = Assert.Single(site.Findings, finding => finding.Rule.Slug == "pump-before-master");
        Assert.Equal("Start pump lift 2 s after zones or later.", finding.Help);
    }

    [Fact]
    public void Each_zone_of_a_tank_has_a_pump_of_its_own() => Assert.False(IsFound("zone-without-pump",
        """
        site s { timezone Etc/UTC; effective 2026-03-01 }
        supply pond { flow 20 L/min; tank 2 m3 }
        zone a { output 1; flow 10 L/min }
        zone b { output 2; flow 10 L/min }
        pump east { output 7; zones a; load 60 mA }
        pump west { output 8; zones b; load 60 mA }

        """, "every day; start at 06:00; steps { water a, b for 10 min }"));

    /// <summary>4 + 5 = 9 L/min through the tap, though one of the zones is behind another supply.</summary>
    [Fact]
    public void A_zone_behind_another_supply_helps_to_the_minimum()
    {
        var site = Of(
            """
            site s { timezone Etc/UTC; effective 2026-03-01 }
            supply tap { flow 20 L/min; minimum-flow 9 L/min }
            supply garden { flow 10 L/min; fed-by tap }
            zone a { output 1; supply tap; flow 4 L/min }
            zone b { output 2; supply garden; flow 5 L/min }

            """, Daily);
        var finding = Assert.Single(site.Findings, finding => finding.Rule.Slug == "flow-under-minimum");
        Assert.StartsWith("Water it together with b, which makes 9.0 L/min", finding.Help, StringComparison.Ordinal);
    }

    /// <summary>A zone of which no flow is known counts as none: 21.5 of 22 L/min.</summary>
    [Theory]
    [InlineData("21.5", false)]
    [InlineData("22.5", true)]
    public void An_unknown_flow_is_not_made_up(string flow, bool isFound) => Assert.Equal(isFound, IsFound("flow-over-pump",
        $$"""
        site s { timezone Etc/UTC; effective 2026-03-01 }
        zone a { output 1; flow {{flow}} L/min }
        zone b { output 2 }
        pump lift { output 8; zones a, b; load 60 mA; flow 22 L/min }

        """, "every day; start at 06:00; steps { water a + b for 10 min }"));

    /// <summary>16 h of sun are more than any month has (common practice); without a place nothing nearer is known.</summary>
    [Theory]
    [InlineData("16", false)]
    [InlineData("16.1", true)]
    public void Sun_without_a_place(string hours, bool isFound) => Assert.Equal(isFound, IsFound("unlikely-value",
        $$"""
        site s { timezone Etc/UTC; effective 2026-03-01 }
        climate { jun 10 C to 20 C, sun {{hours}} h/day }
        zone a { output 1 }

        """, Daily));

    /// <summary>A panel has a yield only in the months of which temperatures are given.</summary>
    [Fact]
    public void Months_without_temperatures_are_named()
    {
        var site = Of(
            """
            site s { timezone Etc/UTC; effective 2026-03-01; location 40 N 8 W }
            climate { jan 4 C to 12 C; feb 4 C to 12 C; mar 4 C to 12 C; apr 4 C to 12 C; may 4 C to 12 C; jul 4 C to 12 C; aug 4 C to 12 C }
            controller box { outputs 4; power { battery 50 Ah at 12 V; standby 1 mA; solar-panel 20 W tilt 40 deg } }
            valve click latching { pulse 50 ms; coil 20 ohm }
            zone a { output 1; valve click }

            """, Daily);
        var gap = Assert.Single(site.Lint!.NotChecked, gap => gap.What == "battery");
        Assert.Equal("temperatures for jun, sep, oct, nov, dec", gap.Add);
        Assert.DoesNotContain(site.Findings, finding => finding.Rule.Slug == "battery-runs-flat");
    }

    /// <summary>It ends as the first date begins: before it.</summary>
    [Theory]
    [InlineData("2026-02-01 06:00 to 2026-03-01 00:00", "is over before the file takes effect")]
    [InlineData("2026-02-01 06:00 to 2026-03-01 00:01", "no run of its zones falls in it")]
    public void A_hold_that_ends_as_the_file_takes_effect(string span, string label)
    {
        var site = Of($"site s {{ timezone Etc/UTC; effective 2026-03-01 }}\nzone a {{ output 1 }}\nhold a from {span} because \"frost\"\n", Daily);
        var finding = Assert.Single(site.Findings, finding => finding.Rule.Slug == "takes-nothing");
        Assert.Equal(label, finding.Primary.Text);
    }

    /// <summary>1 Wh = 3,600 J; a decimal below 100 Wh.</summary>
    [Theory]
    [InlineData(359_640, "99.9 Wh")]
    [InlineData(361_800, "101 Wh")]
    [InlineData(3_600, "1.0 Wh")]
    public void Watt_hours(int joules, string words) => Assert.Equal(words, BatteryWords.WattHours(joules));

    private static CheckedSite Of(string site, string schedule) => Checked.Of($"{site}schedule s {{ {schedule} }}\n");

    private static bool IsFound(string rule, string site, string schedule)
    {
        var found = Of(site, schedule);
        Assert.NotNull(found.Lint);
        return found.Findings.Any(finding => finding.Rule.Slug == rule);
    }
}
