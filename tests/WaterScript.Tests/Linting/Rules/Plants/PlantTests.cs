using Xunit;

namespace WaterScript.Tests.Linting.Rules.Plants;

/// <summary>Plants and soil: what is found, with its numbers, and what is left alone.</summary>
public sealed class PlantTests
{
    /// <summary>40 mm/h on ground that takes in 10, 5 mm may stand: 10 min. 18 min bring 30 · 0.3 = 9 mm, so 4 run off.</summary>
    [Fact]
    public void A_run_that_runs_off_is_reported_with_the_cycle_that_fixes_it()
    {
        var finding = Assert.Single(Lint.Of(Bank("water bank for 18 min"), "runoff"));
        Assert.Equal("12.0 mm in 18 min at 40.0 mm/h", finding.Primary.Text);
        Assert.Equal("4.0 mm of 12.0 mm runs off zone bank", finding.Heading);
        Assert.Equal("From dry soil the longest run without runoff is 10 min.", finding.Details);
        Assert.Equal("cycle 9 min soak 27 min { water bank for 18 min }", Assert.Single(finding.Fix!.Edits).Replacement);
        Assert.False(finding.Fix.IsSafe);
    }

    [Theory]
    [InlineData("water bank for 10 min", 0)]
    [InlineData("water bank for 10 min 5 s", 1)]
    [InlineData("water bank with 12 mm", 1)]
    [InlineData("cycle 9 min soak 27 min { water bank for 18 min }", 0)]
    [InlineData("cycle 9 min soak 20 min { water bank for 18 min }", 1)]
    [InlineData("cycle 12 min soak 2 h { water bank for 24 min }", 1)]
    [InlineData("cycle auto { water bank for 47 min }", 0)]
    [InlineData("water bank for 9 min; pause 27 min; water bank for 9 min", 0)]
    [InlineData("water bank for 9 min; pause 10 min; water bank for 9 min", 1)]
    [InlineData("water drip for 3 h", 0)]
    [InlineData("water slow for 3 h", 0)]
    public void What_stands_is_followed_from_run_to_run(string steps, int found) => Assert.Equal(found, Lint.Of(Bank(steps), "runoff").Length);

    [Fact]
    public void Water_of_another_schedule_still_stands()
    {
        const string other = "schedule other { on mon; start at 06:20; steps { water bank for 9 min } }";
        Assert.Empty(Lint.Of(Bank("water bank for 9 min"), "runoff"));
        Assert.Contains("From a run before", Assert.Single(Lint.Of(Bank("water bank for 9 min") + other, "runoff")).Details, StringComparison.Ordinal);
    }

    [Fact]
    public void What_cannot_be_judged_is_said()
    {
        var notChecked = Lint.NotChecked(Bank("water bank, bare for 1 min"));
        Assert.Contains("runoff of zone bare (add rate)", notChecked);
        Assert.Contains("water need (add climate)", notChecked);
    }

    [Theory]
    [InlineData("cycle 6 min soak 30 min { water bank for 12 min }", "07:12", 0)]
    [InlineData("cycle 6 min soak 30 min { water bank for 12 min }", "07:11", 1)]
    [InlineData("cycle 6 min soak 30 min { water bank for 12 min }", "06:30", 1)]
    [InlineData("cycle 6 min soak 30 min { water bank for 12 min }", "06:42", 1)]
    [InlineData("water bank for 12 min", "06:12", 0)]
    public void A_soak_is_compared_with_other_schedules(string steps, string start, int found) =>
        Assert.Equal(found, Lint.Of(Bank(steps) + $"schedule other {{ on mon; start at {start}; steps {{ water bank for 1 min }} }}", "soak-too-short").Length);

    [Theory]
    [InlineData("water a, b for 10 min", 1)] // 12 and 30 mm/h
    [InlineData("water a + c for 10 min", 0)] // 12 and 20 mm/h
    [InlineData("water a, trimmed for 10 min", 0)] // 12 and 40 % of 30 mm/h
    [InlineData("water spray, drip for 10 min", 1)]
    [InlineData("water a, b with 10 mm", 0)]
    [InlineData("water a for 10 min; water b for 4 min", 0)]
    [InlineData("cycle 3 min soak 5 min { water a, b for 10 min }", 1)]
    public void One_time_for_uneven_zones(string steps, int found)
    {
        const string zones = """
            zone a { output 1; rate 12 mm/h }
            zone b { output 2; rate 30 mm/h }
            zone c { output 3; rate 20 mm/h }
            zone trimmed { output 4; rate 30 mm/h; trim 40 % }
            zone spray { output 5; method spray }
            zone drip { output 6; method drip }

            """;
        Assert.Equal(found, Lint.Of(Plot($"{zones}schedule s {{ on mon; start at 06:00; steps {{ {steps} }} }}"), "uneven-together").Length);
        Assert.Empty(Lint.Of(Plot($"{zones}schedule s {{ manual; steps {{ {steps} }} }}"), "uneven-together"));
    }

    [Theory]
    [InlineData("schedule s { on mon; start at 06:00; steps { water a for 5 min } }", 1)]
    [InlineData("schedule s { on mon; from 2026-03-01; start at 06:00; steps { water a for 5 min } }", 1)]
    [InlineData("schedule s { on mon; from 1 apr to 31 oct; start at 06:00; steps { water a for 5 min } }", 0)]
    [InlineData("schedule s { on mon; from 1 dec to 31 jan; start at 06:00; steps { water a for 5 min } }", 1)]
    [InlineData("schedule s { on mon; from 1 jan to 31 jan; start at 06:00; steps { water a for 5 min } }", 0)]
    [InlineData("closed from 1 nov to 15 mar because \"drained\"\nschedule s { on mon; start at 06:00; steps { water a for 5 min } }", 0)]
    [InlineData("extra 2026-12-01 06:00 because \"test\" { water a for 5 min }", 0)]
    [InlineData("schedule s { manual; steps { water a for 5 min } }", 0)]
    public void Watering_in_frost_needs_a_last_day(string schedule, int found) =>
        Assert.Equal(found, Lint.Of(Plot($"climate {{ dec -1 C to 5 C; jan 4 C to 6 C; feb 5 C to 9 C }}\nzone a {{ output 1 }}\n{schedule}"),
            "frost-months").Length);

    /// <summary>Sandy loam holds 130 mm/m, in 10 cm 13 mm; 20 mm/h at 80 % bring that in 48 min 45 s.</summary>
    [Theory]
    [InlineData("water lawn for 48 min 45 s", 0)]
    [InlineData("water lawn for 49 min", 1)]
    [InlineData("water lawn for 30 min; pause 1 h; water lawn for 30 min", 1)]
    public void A_day_brings_no_more_than_roots_can_hold(string steps, int found) => Assert.Equal(found, Lint.Of(
        Plot("plants young { roots 10 cm; allowed-depletion 50 % }\nzone lawn { output 1; rate 20 mm/h; efficiency 80 %; soil sandy-loam; plants young }\n"
            + $"schedule s {{ on mon; start at 05:00; steps {{ {steps} }} }}"),
        "below-roots").Length);

    /// <summary>5 mm/day · 0.95 = 4.75 mm/day of need; 15 mm/h. Every day: 75 % are 3.5625 mm, 14 min 15 s; 125 % are 5.9375 mm, 23 min 45 s.</summary>
    [Theory]
    [InlineData("14 min", "under-watered")]
    [InlineData("14 min 20 s", null)]
    [InlineData("23 min 40 s", null)]
    [InlineData("24 min", "over-watered")]
    public void Too_little_and_too_much_by_month(string length, string? rule)
    {
        var findings = Lint.Of(Plot("climate { jul et 5 mm/day }\nzone lawn { output 1; rate 15 mm/h; soil loam; plants turf-cool }\n"
            + $"schedule s {{ every day; from 1 jul to 31 jul; start at 05:00; steps {{ water lawn for {length} }} }}"))
            .Findings.Where(finding => finding.Rule.Slug is "under-watered" or "over-watered").ToList();
        Assert.Equal(rule, findings.SingleOrDefault()?.Rule.Slug);
        if (rule is null) return;
        Assert.StartsWith(
            $"Jul {(rule == "under-watered" ? "109 of 147 mm, 74 %: too dry on 17 days." : "186 of 147 mm, 126 %: 39 mm drains below the roots.")}",
            findings[0].Details, StringComparison.Ordinal);
    }

    /// <summary>Rain of 200 mm counts as 135: 4.75 · 31 − 135 = 12 mm are needed in July.</summary>
    [Fact]
    public void Rain_is_counted() => Assert.Contains(
        "of 12 mm",
        Assert.Single(Lint.Of(Plot("climate { jul et 5 mm/day, rain 200 mm }\nzone lawn { output 1; rate 15 mm/h; plants turf-cool }\n"
            + "schedule s { every day; from 1 jul to 31 jul; start at 05:00; steps { water lawn for 19 min } }"), "over-watered")).Details,
        StringComparison.Ordinal);

    /// <summary>A season that begins on the 20th is judged by its own days, and one watering alone by none.</summary>
    [Theory]
    [InlineData("every day; from 20 jul to 31 jul; start at 05:00; steps { water lawn for 19 min }")]
    [InlineData("every 3 days; from 1 jul to 31 jul; start at 05:00; steps { water lawn for 57 min }")]
    [InlineData("on 2026-07-06; start at 05:00; steps { water lawn for 19 min }")]
    [InlineData("manual; steps { water lawn for 5 min }")]
    public void Days_out_of_season_do_not_count(string schedule) =>
        Assert.Empty(
            Lint.Of(Plot(
            $"climate {{ jul et 5 mm/day }}\nzone lawn {{ output 1; rate 15 mm/h; plants turf-cool }}\nschedule s {{ {schedule} }}")).Findings.Where(finding =>
            finding.Rule.Slug is "under-watered" or "over-watered"));

    private static string Bank(string steps) => Plot($$"""
        soil fill { intake 10 mm/h; ponds 5 mm }
        zone bank { output 1; rate 40 mm/h; soil fill }
        zone drip { output 2; rate 40 mm/h; method drip; soil fill }
        zone slow { output 3; rate 10 mm/h; soil fill }
        zone bare { output 4 }
        schedule s { on mon; start at 06:00; steps { {{steps}} } }

        """);

    private static string Plot(string blocks) => $"site plot {{ timezone Europe/Lisbon; effective 2026-03-01 }}\n{blocks}";
}
