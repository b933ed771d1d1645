using WaterScript.Tests.Timetables;
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
            supply well { flow 20 L/min; change-over gap 10 s }
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
}
