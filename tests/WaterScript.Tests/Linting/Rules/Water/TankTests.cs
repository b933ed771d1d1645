using Xunit;

namespace WaterScript.Tests.Linting.Rules.Water;

/// <summary>Levels of tanks, starts of motors, hours under pressure, doses, and what stops at one instant.</summary>
public class TankTests
{
    /// <summary>Minutes to empty = volume / (out − in): 1000 L at 20 out and 5 in are dry after 66 min 40 s.</summary>
    [Theory]
    [InlineData("66 min", false)]
    [InlineData("66 min 40 s", false)]
    [InlineData("66 min 41 s", true)]
    [InlineData("80 min", true)]
    public void A_tank_is_dry_when_more_is_drawn_than_it_holds_and_gets(string length, bool isDry)
    {
        var findings = Lint.Of(Site("tank 1000 L; refill 5 L/min", $"on mon; start at 06:00; steps {{ water lawn for {length} }}"), "tank-runs-dry");

        Assert.Equal(isDry ? 1 : 0, findings.Length);
        if (!isDry) return;
        Assert.Equal(new(2026, 3, 2, 7, 6, 40), findings[0].Happens!.First);
        Assert.StartsWith("1000 L lasts 1 h 6 min 40 s at 20.0 - 5.0 = 15.0 L/min. ", findings[0].Details, StringComparison.Ordinal);
    }

    /// <summary>Out 20, in 5: 80 min want 1600 L, of which 1000 + 400 are there.</summary>
    [Fact]
    public void The_shortfall_is_given() =>
        Assert.Contains(" 200 L on the worst day.",
            Assert.Single(Lint.Of(Site("tank 1000 L; refill 5 L/min", "on mon; start at 06:00; steps { water lawn for 80 min }"), "tank-runs-dry")).Details,
            StringComparison.Ordinal);

    /// <summary>Out 20, back 12, in 0: 1000 / 8 = 125 min. Water that comes back from another supply fills no more than the tank.</summary>
    [Theory]
    [InlineData("water lawn for 125 min", false)]
    [InlineData("water lawn for 126 min", true)]
    [InlineData("water lawn for 100 min\n water gutters for 10 min\n water lawn for 40 min", false)] // 1000 − 800 + 120 − 320 = 0
    [InlineData("water lawn for 100 min\n water gutters for 10 min\n water lawn for 41 min", true)]
    [InlineData("water gutters for 5 h\n water lawn for 126 min", true)]
    public void What_runs_back_counts(string steps, bool isDry)
    {
        const string zones = """
            site plot { timezone UTC; effective 2026-03-01 }
            supply well { flow 20 L/min; tank 1000 L; refill 0 L/min }
            supply town { flow 20 L/min }
            zone lawn { output 1; supply well; flow 20 L/min; returns 60 % to well }
            zone gutters { output 2; supply town; flow 12 L/min; returns 100 % to well }

            """;
        var findings = Lint.Of($"{zones}schedule once {{ on 2026-03-02; start at 06:00; steps {{ {steps} }} }}\n", "tank-runs-dry");

        Assert.Equal(isDry, findings.Length > 0);
    }

    /// <summary>(1000 − 250) L / 15 L/min = 50 min; and from 370 L at midnight of the date, 370 / 15 = 24.67 min.</summary>
    [Theory]
    [InlineData("tank 1000 L; refill 5 L/min; reserve 250 L", "1000 - 250 = 750 L lasts 50 min at 20.0 - 5.0 = 15.0 L/min.")]
    [InlineData("tank 1000 L; refill 5 L/min; contains 370 L on 2026-03-02", "24 min 40 s after the watering begins, it is empty")]
    public void A_reserve_and_a_known_level_count(string tank, string expected) =>
        Assert.Contains(expected, Assert.Single(Lint.Of(Site(tank, "on mon; start at 00:00; steps { water lawn for 1 h }"), "tank-runs-dry")).Details,
            StringComparison.Ordinal);

    /// <summary>Each hour 20 min draw 20 and get 5 L/min, 40 min get 5: after the ninth, 1000 − 9 · 300 + 8 · 200 L = −100 L. So the ninth is dry.</summary>
    [Fact]
    public void What_is_not_refilled_between_two_waterings_is_missing_later()
    {
        var finding = Assert.Single(Lint.Of(Site("tank 1000 L; refill 5 L/min",
            "on mon; start at 00:00; repeat every 1 h for 9 passes; steps { water lawn for 20 min }"), "tank-runs-dry"));

        Assert.Equal(new(2026, 3, 2, 8, 13, 20), finding.Happens!.First);
        Assert.Contains(" 100 L on the worst day.", finding.Details, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tank 1000 L", "tank of supply well (add refill)")]
    [InlineData("tank 1000 L; refill 5 L/min; catchment 18 m2 at 80 %", "tank of supply well (add climate)")]
    public void A_tank_that_cannot_be_followed_is_reported_as_such(string tank, string notChecked)
    {
        var report = Lint.Of(Site(tank, "on mon; start at 06:00; steps { water lawn for 3 h }"));

        Assert.Contains(notChecked, report.NotChecked.Select(gap => gap.Sentence));
        Assert.DoesNotContain(report.Findings, finding => finding.Rule.Slug == "tank-runs-dry");
    }

    /// <summary>
    /// 31 mm on 20 m² at 90 % are 558 L in March, 18 L a day. A tank that is empty on 2 March at 00:00 has 17.25 · 18 = 310.5 L on the 19th at 06:00; 20 L/min
    /// want
    /// 400 L in 20 min, in which 0.25 L come: 89.25 L are missing.
    /// </summary>
    [Theory]
    [InlineData("15 min", false)]
    [InlineData("20 min", true)]
    public void Rain_from_a_roof_fills_a_tank(string length, bool isDry)
    {
        const string climate = "climate { jan rain 31 mm; feb rain 31 mm; mar rain 31 mm; apr rain 31 mm; may rain 31 mm; jun rain 31 mm; "
            + "jul rain 31 mm; aug rain 31 mm; sep rain 31 mm; oct rain 31 mm; nov rain 31 mm; dec rain 31 mm }";
        var findings = Lint.Of(Site("tank 1000 L; contains 0 L on 2026-03-02; catchment 20 m2 at 90 %",
            $"on 2026-03-19; start at 06:00; steps {{ water lawn for {length} }}", climate), "tank-runs-dry");

        Assert.Equal(isDry ? 1 : 0, findings.Length);
        if (isDry) Assert.Contains(" 89 L short.", findings[0].Details, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("lawn + beds", "", true)]
    [InlineData("lawn + pots", "", false)]
    [InlineData("lawn, beds", "", false)]
    [InlineData("lawn + beds", "pump lift { output 8; supply well; load 60 mA; stops 2 s before zones }", false)]
    public void Much_flow_that_stops_at_one_instant_is_reported(string zones, string more, bool isHammer) =>
        Assert.Equal(isHammer, Lint.Of(Site("", $"on mon; start at 06:00; steps {{ water {zones} for 10 min }}", more), "water-hammer").Length == 1);

    [Theory]
    [InlineData("start at 18:00; steps { water pots for 12 h }", false)]
    [InlineData("start at 18:00; steps { water pots for 12 h 1 s }", true)]
    [InlineData("start at 06:00, 20:00; steps { water pots for 6 h 1 s }", true)]
    [InlineData("start at 06:00, 20:00; steps { water pots for 6 h }", false)]
    public void Hours_under_pressure_are_added_up_within_any_24(string schedule, bool isTooLong) =>
        Assert.Equal(isTooLong, Lint.Of(Site("backflow atmospheric", $"on mon; {schedule}"), "vacuum-breaker-hours").Length == 1);

    [Theory]
    [InlineData("10 min", false)]
    [InlineData("9 min 59 s", true)]
    public void Starts_within_any_hour_are_counted(string every, bool isTooMany) =>
        Assert.Equal(isTooMany, Lint.Of(
            Site("", $"on mon; start at 06:00; repeat every {every} for 20 passes; steps {{ water lawn for 1 min }}",
                "pump lift { output 8; supply well; load 60 mA; at most 6 starts an hour }"), "pump-starts").Length == 1);

    [Theory]
    [InlineData("bridges gaps up to 60 s", "pause 60 s", "", true)]
    [InlineData("bridges gaps up to 60 s", "pause 61 s", "", false)]
    [InlineData("bridges gaps up to 60 s", "pause 10 s", "", false)]
    [InlineData("starts 10 s before zones; stops 10 s after zones", "pause 20 s", "", false)]
    [InlineData("bridges gaps up to 60 s", "pause 60 s", "bypass", false)]
    public void A_pump_that_bridges_gaps_up_to_a_long_gap_is_alone(string pump, string pause, string supply, bool isAlone) =>
        Assert.Equal(isAlone, Lint.Of(
            Site(supply, $"on mon; start at 06:00; steps {{ water lawn for 10 min; {pause}; water beds for 10 min }}",
                $"pump lift {{ output 8; supply well; load 60 mA; {pump} }}"), "pump-without-flow").Length == 1);

    [Theory]
    [InlineData("after 5 min; rinse 8 min", "water pots for 20 min through feeder", null)]
    [InlineData("after 5 min; rinse 8 min", "water pots for 13 min through feeder", "nothing is dosed, the watering is too short")]
    [InlineData("starts 10 s before zones; rinse 8 min", "water pots for 20 min through feeder", "doses before the water flows")]
    [InlineData("after 5 min; stops 10 s after zones", "water pots for 20 min through feeder", "doses after the water has stopped")]
    [InlineData("after 5 min; rinse 8 min; stops 10 s after zones", "water pots for 20 min through feeder", "the rinse is shorter than it should be")]
    [InlineData("bridges gaps up to 10 min", "water pots for 20 min through feeder; pause 9 min; water pots for 20 min through feeder",
        "doses on through a gap without water")]
    public void A_dose_needs_flow_and_its_rinse(string injector, string steps, string? what)
    {
        var findings = Lint.Of(Site("", $"on mon; start at 06:00; steps {{ {steps} }}", $"injector feeder {{ output 7; zones pots; load 40 mA; {injector} }}"),
            "dose-without-flow");

        Assert.Equal(what is null ? [] : [what], findings.Select(finding => finding.Primary.Text));
    }

    private static string Site(string supply, string schedule, string more = "") =>
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        supply well { flow 50 L/min; {{supply}} }
        zone lawn { output 1; flow 20 L/min }
        zone beds { output 2; flow 15 L/min }
        zone pots { output 3; flow 1 L/min; method drip }
        {{more}}
        schedule s { {{schedule}} }
        """;
}
