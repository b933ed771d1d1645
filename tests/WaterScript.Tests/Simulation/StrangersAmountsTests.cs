using WaterScript.Diagnostics.Reading;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>More sites as different people would write them: amounts, holds and schedules that follow others, and their runs worked out by hand.</summary>
public sealed class StrangersAmountsTests
{
    [Fact]
    public void Starts_narrow_the_days_and_equal_ones_are_one()
    {
        const string Site =
            """
            site courts { timezone Africa/Johannesburg; effective 2026-06-01 }
            zone clay { output 1 }
            schedule clay {
              on odd days
              start at 05:00 on mon to fri
              start at 07:00, 05:00 on fri, sat, sun
              steps { water clay for 4 min }
            }
            """;

        // June 2026: Mon 1, Wed 3, Fri 5, Sun 7. On Friday 05:00 is asked for twice.
        string[] expected =
        [
            "2026-06-01 05:00:00 +02", "2026-06-03 05:00:00 +02", "2026-06-05 05:00:00 +02", "2026-06-05 07:00:00 +02",
            "2026-06-07 05:00:00 +02", "2026-06-07 07:00:00 +02",
        ];
        Assert.Equal(expected, Sites.PassLines(Site, "2026-06-01", 7));
    }

    [Fact]
    public void Run_times_are_scaled_then_trimmed_and_a_round_keeps_the_day_it_finishes()
    {
        const string Site =
            """
            scale warm { jun 100 %; jul 200 % }
            site hill { timezone America/Denver; effective 2026-06-01; scale warm }
            zone a { output 1; trim 50 % }
            zone b { output 2; trim 30 % }
            zone c { output 3; shortest 30 s; trim 50 % }
            zone d { output 4 }
            schedule round {
              every day
              finish by 00:30
              repeat every 1 h for 2 passes
              steps { water a + b, c for 45 s; pause 1 min; water d for 20 min }
            }
            schedule fixed { on 2026-07-01; start at 12:00; scale 110 %; steps { water a + b for 45 s; water c for 61 s } }
            """;

        // June: a 22.5 -> 23 s, b 13.5 -> 14 s, c 22.5 -> 23 s, under its shortest: left out. 23 + 60 + 1200 = 1283 s: 00:08:37 and an hour before.
        // July, also for the pass that starts on 30 June: a 45, b 27, c 45, d 2400: 45 + 45 + 60 + 2400 = 2550 s: 23:47:30 and an hour before.
        // At 110 %: a 24.75 -> 25 s, b 14.85 -> 15 s, c 33.55 -> 34 s.
        string[] expected =
        [
            "2026-06-29 00:08:37 -06 a 23 s round 1",
            "2026-06-29 00:08:37 -06 b 14 s round 1",
            "2026-06-29 00:10:00 -06 d 1200 s round 3",
            "2026-06-29 23:08:37 -06 a 23 s round 1",
            "2026-06-29 23:08:37 -06 b 14 s round 1",
            "2026-06-29 23:10:00 -06 d 1200 s round 3",
            "2026-06-30 00:08:37 -06 a 23 s round 1",
            "2026-06-30 00:08:37 -06 b 14 s round 1",
            "2026-06-30 00:10:00 -06 d 1200 s round 3",
            "2026-06-30 22:47:30 -06 a 45 s round 1",
            "2026-06-30 22:47:30 -06 b 27 s round 1",
            "2026-06-30 22:48:15 -06 c 45 s round 1",
            "2026-06-30 22:50:00 -06 d 2400 s round 3",
            "2026-06-30 23:47:30 -06 a 45 s round 1",
            "2026-06-30 23:47:30 -06 b 27 s round 1",
            "2026-06-30 23:48:15 -06 c 45 s round 1",
            "2026-06-30 23:50:00 -06 d 2400 s round 3",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-06-29", 2));
        Assert.Equal(
            ["2026-07-01 12:00:00 -06 a 25 s fixed 1", "2026-07-01 12:00:00 -06 b 15 s fixed 1", "2026-07-01 12:00:25 -06 c 34 s fixed 2"],
            Sites.RunLines(Site, "2026-07-01", 1).Where(line => line.Contains("fixed", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_hold_takes_runs_and_moves_nothing_and_a_schedule_does_not_follow_one_that_did_not_run()
    {
        const string Site =
            """
            site lawns { timezone Europe/Dublin; effective 2026-07-01 }
            zone north { output 1 }
            zone south { output 2 }
            zone pots { output 3 }
            hold north from 2026-07-10 06:15 for 1 day because "mowing"
            hold north, south from 2026-07-12 to 2026-07-12 because "seeded"
            schedule main { on 10 jul to 13 jul; start at 06:00; steps { water north for 30 min; water south, north for 10 min } }
            schedule pots { start after main; steps { water pots for 1 min } }
            """;

        // On the 10th: the first run up to the hold, the run that starts inside it not; the pots follow the whole plan of 50 min.
        // On the 11th the hold ends at 06:15, while the first run is under way: it is left out whole. On the 12th nothing is left.
        string[] expected =
        [
            "2026-07-10 06:00:00 +01 north 900 s main 1",
            "2026-07-10 06:30:00 +01 south 600 s main 2",
            "2026-07-10 06:50:00 +01 pots 60 s pots 1",
            "2026-07-11 06:30:00 +01 south 600 s main 2",
            "2026-07-11 06:40:00 +01 north 600 s main 2",
            "2026-07-11 06:50:00 +01 pots 60 s pots 1",
            "2026-07-13 06:00:00 +01 north 1800 s main 1",
            "2026-07-13 06:30:00 +01 south 600 s main 2",
            "2026-07-13 06:40:00 +01 north 600 s main 2",
            "2026-07-13 06:50:00 +01 pots 60 s pots 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-07-09", 6));
    }

    [Fact]
    public void Days_of_every_year_a_closed_season_and_one_pass_outside_the_calendar()
    {
        const string Site =
            """
            site cabin { timezone America/Halifax; effective 2027-12-20 }
            zone moss { output 1; trim 200 % }
            closed from 30 dec to 31 jan because "frozen"
            extra 2028-02-10 21:00 because "visitors" { water moss for 3 min }
            schedule moss {
              on last fri of month, 29 feb
              on 24 dec to 2 jan
              start at 10:00
              scale 50 %
              steps { water moss for 10 min }
            }
            """;

        // 31 December 2027 is a Friday and closed, as is all of January. 25 February 2028 is the last Friday; 2028 has a 29 February.
        string[] expected =
        [
            "2027-12-24 10:00:00 -04 moss 600 s moss 1",
            "2027-12-25 10:00:00 -04 moss 600 s moss 1",
            "2027-12-26 10:00:00 -04 moss 600 s moss 1",
            "2027-12-27 10:00:00 -04 moss 600 s moss 1",
            "2027-12-28 10:00:00 -04 moss 600 s moss 1",
            "2027-12-29 10:00:00 -04 moss 600 s moss 1",
            "2028-02-10 21:00:00 -04 moss 360 s extra-2028-02-10-2100 1",
            "2028-02-25 10:00:00 -04 moss 600 s moss 1",
            "2028-02-29 10:00:00 -04 moss 600 s moss 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2027-12-01", 95));
    }

    [Fact]
    public void A_long_round_is_cut_off_at_dawn_and_what_follows_it_starts_then()
    {
        const string Site =
            """
            site green { timezone Europe/Paris; effective 2026-08-01 }
            zone g1 { output 1; flow 1.2 m3/h }
            zone g2 { output 2; flow 1.2 m3/h }
            zone g3 { output 3; flow 1.2 m3/h }
            schedule greens {
              on 2026-08-05
              start at 22:00
              cut off at 02:00 next day
              steps { water g1, g2, g3 for 1 h 45 min }
            }
            schedule wash { start after greens + 30 min; steps { water g1 for 1 min } }
            """;

        // g3 would run from 01:30 to 03:15; its last half hour is cut off at 02:00.
        string[] expected =
        [
            "2026-08-05 22:00:00 +02 g1 6300 s greens 1",
            "2026-08-05 23:45:00 +02 g2 6300 s greens 1",
            "2026-08-06 01:30:00 +02 g3 1800 s greens 1",
            "2026-08-06 02:30:00 +02 g1 60 s wash 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-08-01", 9));
    }

    [Fact]
    public void A_schedule_that_follows_another_has_its_days_for_all_its_starts()
    {
        const string Site =
            """
            site s { timezone Europe/Madrid; effective 2026-03-01 }
            zone a { output 1 }
            zone b { output 2 }
            schedule main { on mon; start at 06:00; steps { water a for 10 min } }
            schedule rinse { start after main; start at 12:00; steps { water b for 1 min } }
            """;

        string[] expected =
        [
            "2026-03-02 06:00:00 +01 a 600 s main 1",
            "2026-03-02 06:10:00 +01 b 60 s rinse 1",
            "2026-03-02 12:00:00 +01 b 60 s rinse 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-03-01", 8));
    }

    [Theory]
    [InlineData("closed from 10 jul to 20 jul because \"works\"", "an extra pass falls in a closed season")]
    [InlineData("hold b from 2026-07-18 21:05 for 1 h because \"sown\"", "an extra pass falls in a hold")]
    [InlineData("hold a from 2026-07-18 21:05 for 1 h because \"sown\"", null)]
    [InlineData("hold from 2026-07-18 to 2026-07-18 20:59 because \"party\"", null)]
    public void An_extra_pass_in_a_hold_or_a_closed_season_contradicts_it(string line, string? heading)
    {
        var site = Sites.Read(Sites.Garden($"{line}\nextra 2026-07-18 21:00 because \"new plants\" {{ water a for 5 min; water b for 10 min }}"));
        var found = Linter.Check(site, Horizon.YearFrom(site.Effective)).Findings.Where(finding => finding.Rule == ReadingRules.Contradiction)
            .Select(finding => finding.Heading);
        Assert.Equal(heading is null ? [] : [heading], found);
    }
}
