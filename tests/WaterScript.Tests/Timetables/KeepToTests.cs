using NodaTime;
using NodaTime.Text;
using WaterScript.Model;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Timetables;

/// <summary>What is left of schedules that keep to a restriction, worked out by hand: zone, date, and the times from and to. 1 June 2026 is a Monday.</summary>
public sealed class KeepToTests
{
    [Fact]
    public void Of_a_week_the_first_dates_are_left() =>
        Assert.Equal(
            ["a 1 06:00-06:10", "a 3 06:00-06:10", "a 8 06:00-06:10", "a 10 06:00-06:10"],
            Lines("at most 2 days a week", "schedule s { on mon, wed, fri; start at 06:00; keep to rule; steps { water a for 10 min } }"));

    /// <summary>What a hold empties counts all the same: Friday takes nobody's place.</summary>
    [Fact]
    public void A_date_that_a_hold_empties_counts() =>
        Assert.Equal(
            ["a 3 06:00-06:10", "a 8 06:00-06:10", "a 10 06:00-06:10"],
            Lines("at most 2 days a week", "schedule s { on mon, wed, fri; start at 06:00; keep to rule; steps { water a for 10 min } }\n"
                + "hold from 2026-06-01 for 1 day because \"rain\""));

    [Fact]
    public void A_run_into_a_date_that_does_not_count_stops_at_midnight() =>
        Assert.Equal(["a 1 23:50-00:00", "a 8 23:50-00:00"],
            Lines("at most 1 day a week", "schedule s { on mon; start at 23:50; keep to rule; steps { water a for 20 min } }"));

    /// <summary>Others' water does not count as a day, and nothing is taken of it.</summary>
    [Fact]
    public void A_schedule_that_keeps_to_nothing_goes_on() =>
        Assert.Equal(
            ["b 1 05:00-05:10", "a 2 06:00-06:10", "b 8 05:00-05:10", "a 9 06:00-06:10"],
            Lines("at most 1 day a week", "schedule s { on tue, wed; start at 06:00; keep to rule; steps { water a for 10 min } }\n"
                + "schedule t { on mon; start at 05:00; steps { water b for 10 min } }"));

    /// <summary>25 min of the day are gone before it begins; its own 10 min come on top, until the 30 min are used up.</summary>
    [Fact]
    public void All_water_of_a_day_counts_against_its_time() =>
        Assert.Equal(["b 1 05:00-05:25", "a 1 06:00-06:05"],
            Lines("at most 30 min a day", "schedule s { on 2026-06-01; start at 06:00; keep to rule; steps { water a for 10 min } }\n"
                + "schedule t { on 2026-06-01; start at 05:00; steps { water b for 25 min } }"));

    /// <summary>Two at once use the litres up twice as fast, and stop together: 20 L/min for 6 min are 120 L.</summary>
    [Fact]
    public void What_runs_together_stops_together() =>
        Assert.Equal(["a 1 06:00-06:06", "b 1 06:00-06:06"],
            Lines("at most 120 L a day", "schedule s { on 2026-06-01; start at 06:00; keep to rule; steps { water a + b for 10 min; water c for 1 min } }"));

    [Fact]
    public void A_zone_for_itself_stops_alone() =>
        Assert.Equal(["a 1 06:00-06:06", "b 1 06:00-06:04"],
            Lines("at most 60 L a day per zone", "schedule s { on 2026-06-01; start at 06:00; keep to rule; steps { water a for 10 min + b for 4 min } }"));

    /// <summary>A pass that the amount of a day empties did run; one that a forbidden date empties did not.</summary>
    [Theory]
    [InlineData("at most 10 min a day", new[] { "a 1 05:00-05:10", "b 1 06:10-06:11" })]
    [InlineData("allow on sun", new[] { "a 1 05:00-05:10" })]
    public void What_starts_after_asks_for_dates_and_hours_alone(string line, string[] left) =>
        Assert.Equal(left, Lines(line, "schedule first { on 2026-06-01; start at 05:00; steps { water a for 10 min } }\n"
            + "schedule s { on 2026-06-01; start at 06:00; keep to rule; steps { water a for 10 min } }\n"
            + "schedule t { start after s; steps { water b for 1 min } }"));

    /// <summary>Whatever the first date of a timetable is, a week and a day are the same.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(9)]
    public void The_horizon_changes_nothing(int first)
    {
        var site = Read("at most 3 days a week; at most 15 min a day",
            "schedule s { every 2 days; start at 23:55; keep to rule; steps { water a for 20 min } }");
        var whole = Runs(site, new LocalDate(2026, 6, 1), 30);
        Assert.NotEmpty(whole);
        var from = new LocalDate(2026, 6, first);
        var start = from.AtMidnight().InUtc().ToInstant().ToUnixTimeSeconds();
        Assert.Equal(whole.Where(run => run.PassStart >= start).Select(run => (run.Start, run.End)),
            Runs(site, from, 31 - first).Select(run => (run.Start, run.End)));
    }

    private static Site Read(string restriction, string schedules) => Sites.Read(
        "site garden { timezone UTC; effective 2026-05-01 }\nsupply tap { flow 60 L/min }\n"
        + "zone a { output 1; flow 10 L/min }\nzone b { output 2; flow 10 L/min }\nzone c { output 3; flow 10 L/min }\n"
        + $"restriction rule {{ {restriction} }}\n{schedules}\n");

    private static List<Run> Runs(Site site, LocalDate from, int days) => [.. Timetable.Of(site, Horizon.DaysFrom(from, days)).Runs()];

    private static string[] Lines(string restriction, string schedules)
    {
        var site = Read(restriction, schedules);
        return [.. Runs(site, new LocalDate(2026, 6, 1), 14).Select(run =>
            $"{site.Zones[run.Zone].Name} {Said("d HH:mm", run.Start)}-{Said("HH:mm", run.End)}")];
    }

    private static string Said(string pattern, long instant) =>
        LocalDateTimePattern.CreateWithInvariantCulture(pattern).Format(Instant.FromUnixTimeSeconds(instant).InUtc().LocalDateTime);
}
