using WaterScript.Diagnostics.Reading;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>Sites as different people would write them, and their runs worked out by hand from the language.</summary>
public sealed class StrangersSitesTests
{
    [Fact]
    public void Passes_on_the_morning_when_an_hour_is_missing()
    {
        const string Site =
            """
            # Two beds behind the house, New York. On 8 March 2026 the clocks go from 02:00 to 03:00.
            site back-yard "Back yard" {
              timezone  America/New_York
              effective 2026-03-01
            }
            zone beds   "Raised beds" { output 1; flow 3 gpm }
            zone border "Border"      { output 2; flow 4 gpm }

            schedule beds {
              on sat, sun
              start at 02:30
              repeat every 30 min for 3 passes
              steps { water beds for 5 min }
            }
            schedule border { on sun; finish by 03:00; steps { water border for 2 h } }
            """;

        // The border's two hours end at 03:00 -04, which is 07:00 UTC, so they begin at 05:00 UTC: midnight -05.
        string[] expected =
        [
            "2026-03-07 02:30:00 -05 beds 300 s beds 1",
            "2026-03-07 03:00:00 -05 beds 300 s beds 1",
            "2026-03-07 03:30:00 -05 beds 300 s beds 1",
            "2026-03-08 00:00:00 -05 border 7200 s border 1",
            "2026-03-08 03:30:00 -04 beds 300 s beds 1",
            "2026-03-08 04:00:00 -04 beds 300 s beds 1",
            "2026-03-08 04:30:00 -04 beds 300 s beds 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-03-07", 2));
    }

    [Fact]
    public void A_time_that_comes_twice_is_the_first_and_elapsed_time_runs_through()
    {
        const string Site =
            """
            site quinta { timezone Europe/Lisbon; effective 2026-10-01 }
            controller c { outputs 2 }
            zone figs { output 1 }
            zone olives { output 2 }
            # 25 October 2026: 02:00 +01 becomes 01:00 +00.
            schedule night { on sun; finish by 01:30; steps { water figs for 3 h } }
            schedule hourly { on sun; start at 00:30; repeat every 1 h until 03:00; steps { water olives for 10 min } }
            """;

        // 01:30 is the first one, 00:30 UTC; three hours before is 21:30 UTC, the evening of the 24th, and yet Sunday's pass.
        // From 00:30 +01 = 23:30 UTC in hours: 00:30, 01:30 UTC ... up to 03:00 +00 = 03:00 UTC.
        string[] expected =
        [
            "2026-10-24 22:30:00 +01 figs 10800 s night 1",
            "2026-10-25 00:30:00 +01 olives 600 s hourly 1",
            "2026-10-25 01:30:00 +01 olives 600 s hourly 1",
            "2026-10-25 01:30:00 +00 olives 600 s hourly 1",
            "2026-10-25 02:30:00 +00 olives 600 s hourly 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-10-24", 2));
    }

    [Fact]
    public void A_clock_change_of_half_an_hour_gives_more_passes_until_a_clock_time()
    {
        const string Site =
            """
            site island { timezone Australia/Lord_Howe; effective 2026-04-01 }
            zone palms { output 1; flow 200 L/h }
            schedule palms {
              every day
              start at 01:00; repeat every 20 min until 02:00
              steps { water palms for 30 s }
            }
            """;

        // On 5 April 2026 02:00 +11 (15:00 UTC) becomes 01:30 +10:30; 02:00 +10:30 is 15:30 UTC.
        string[] expected =
        [
            "2026-04-04 01:00:00 +11", "2026-04-04 01:20:00 +11", "2026-04-04 01:40:00 +11", "2026-04-04 02:00:00 +11",
            "2026-04-05 01:00:00 +11", "2026-04-05 01:20:00 +11", "2026-04-05 01:40:00 +11", "2026-04-05 01:30:00 +10:30", "2026-04-05 01:50:00 +10:30",
            "2026-04-06 01:00:00 +10:30", "2026-04-06 01:20:00 +10:30", "2026-04-06 01:40:00 +10:30", "2026-04-06 02:00:00 +10:30",
        ];
        Assert.Equal(expected, Sites.PassLines(Site, "2026-04-04", 3));
    }

    [Fact]
    public void A_day_that_has_no_midnight_starts_an_hour_later()
    {
        const string Site =
            """
            site sitio { timezone America/Sao_Paulo; effective 2018-11-03 }
            zone coffee { output 1 }
            schedule midnight { every day; start at 00:00; steps { pause 15 min
            water coffee for 1 h 30 min } }
            """;

        // 4 November 2018 begins at 01:00 -02; 00:00 read with -03 is that same moment.
        string[] expected =
        [
            "2018-11-03 00:15:00 -03 coffee 5400 s midnight 2",
            "2018-11-04 01:15:00 -02 coffee 5400 s midnight 2",
            "2018-11-05 00:15:00 -02 coffee 5400 s midnight 2",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2018-11-03", 3));
    }

    [Fact]
    public void A_southern_season_counts_anew_from_its_own_first_day()
    {
        const string Site =
            """
            site orchard "Orchard, Bay" { timezone Pacific/Auckland; effective 2026-12-28 }
            zone plums { output 1; emitters 40 at 8 L/h }
            schedule plums {
              every 4 days
              from 1 nov to 28 feb
              except 4 jan
              start at 06:00
              steps { water plums for 45 min }
            }
            """;

        // 31 December is the 60th day after 1 November, 25 February the 116th. 4 January is taken and moves nothing.
        Assert.Equal(["2026-12-31", "2027-01-08", "2027-01-12"], Sites.Dates(Site, "2026-12-28", 19));
        Assert.Equal(["2027-02-21", "2027-02-25"], Sites.Dates(Site, "2027-02-20", 240));

        // 365 days after the first 1 November the count would be at one; it starts at nought instead.
        Assert.Equal(["2027-11-01", "2027-11-05"], Sites.Dates(Site, "2027-10-20", 20));
    }

    [Fact]
    public void Weeks_are_counted_from_a_calculated_date()
    {
        const string Site =
            """
            let sown = 2026-09-09                       # a Wednesday
            let first-drink = sown + 1 week
            site field { timezone Europe/Warsaw; effective 2026-01-01 }
            zone rye { output 1 }
            schedule rye {
              every 2 weeks on tue, fri
              from first-drink for 5 weeks
              start at 19:00
              steps { water rye for 20 min }
            }
            """;

        // The weeks run Wednesday to Tuesday: 16 to 22 September, 30 September to 6 October, 14 to 20 October, the last day.
        Assert.Equal(
            ["2026-09-18", "2026-09-22", "2026-10-02", "2026-10-06", "2026-10-16", "2026-10-20"], Sites.Dates(Site, "2026-01-01", 365));
    }

    [Fact]
    public void A_sequence_in_a_repeat_keeps_the_gap_and_the_next_schedule_waits_for_its_last_pause()
    {
        const string Site =
            """
            site terrace { timezone Asia/Kathmandu; effective 2026-05-01 }
            supply well { flow 20 L/min; change gap 10 s }
            zone a { output 1 }
            zone b { output 2 }
            zone c { output 3 }
            group front = a + b
            sequence pair {
              water front for 2 min
              pause 4 s
            }
            schedule round {
              on 2026-05-04
              start at 20:00
              steps {
                repeat 2 times { run pair; water c for 1 min }
                pause 30 s
              }
            }
            schedule late { start after round + 1 min; steps { water c, c for 1 min } }
            """;

        // a + b close at 2:00; the pause of 4 s is shorter than the gap, so c opens at 2:10 and closes at 3:10; and so on.
        // The round is over at 6:30 + 30 s; a minute later is 20:08. A zone twice in a list closes for the gap.
        string[] expected =
        [
            "2026-05-04 20:00:00 +05:45 a 120 s round 1#1.1.1",
            "2026-05-04 20:00:00 +05:45 b 120 s round 1#1.1.1",
            "2026-05-04 20:02:10 +05:45 c 60 s round 1#1.2",
            "2026-05-04 20:03:20 +05:45 a 120 s round 1#2.1.1",
            "2026-05-04 20:03:20 +05:45 b 120 s round 1#2.1.1",
            "2026-05-04 20:05:30 +05:45 c 60 s round 1#2.2",
            "2026-05-04 20:08:00 +05:45 c 60 s late 1",
            "2026-05-04 20:09:10 +05:45 c 60 s late 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-05-01", 10));
    }

    [Fact]
    public void Nights_belong_to_the_day_on_which_they_begin()
    {
        const string Site =
            """
            site park { timezone Europe/Berlin; effective 2026-05-20 }
            zone oaks { output 1 }
            zone limes { output 2 }
            zone pond { output 3 }
            schedule trees {
              on odd days; except days 31 of month
              start at 23:50
              steps { water oaks, limes for 20 min }
            }
            # On Fridays and Saturdays of the odd nights, which start after midnight, on Saturday and Sunday by the clock.
            schedule pond { on fri, sat; start after trees + 10 min; steps { water pond for 5 min } }
            """;

        // 29 May 2026 is a Friday; the 31st, a Sunday, is taken; 1 June is a Monday.
        string[] expected =
        [
            "2026-05-29 23:50:00 +02 oaks 1200 s trees 1",
            "2026-05-30 00:10:00 +02 limes 1200 s trees 1",
            "2026-05-30 00:40:00 +02 pond 300 s pond 1",
            "2026-06-01 23:50:00 +02 oaks 1200 s trees 1",
            "2026-06-02 00:10:00 +02 limes 1200 s trees 1",
        ];
        Assert.Equal(expected, Sites.RunLines(Site, "2026-05-28", 6));
    }

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
    public void A_long_round_is_cut_at_dawn_and_what_follows_it_starts_then()
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
              cut at 02:00 next day
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
    [InlineData("closed from 10 jul to 20 jul because \"works\"", "an extra pass lies in a closed season")]
    [InlineData("hold b from 2026-07-18 21:05 for 1 h because \"sown\"", "an extra pass lies in a hold")]
    [InlineData("hold a from 2026-07-18 21:05 for 1 h because \"sown\"", null)]
    [InlineData("hold from 2026-07-18 to 2026-07-18 20:59 because \"party\"", null)]
    public void An_extra_pass_in_a_hold_or_a_closed_season_contradicts_it(string line, string? heading)
    {
        var site = Sites.Read(Sites.Garden($"{line}\nextra 2026-07-18 21:00 because \"new plants\" {{ water a for 5 min; water b for 10 min }}"));
        var found = Linter.Check(site, Horizon.YearFrom(site.Effective)).Findings.Where(finding => finding.Rule == ReadingRules.Contradiction).Select(finding => finding.Heading);
        Assert.Equal(heading is null ? [] : [heading], found);
    }
}
