using NodaTime;
using WaterScript.Calendars;
using WaterScript.Timetables;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Timetables;

/// <summary>What cuts and holds leave, and what they take, second by second; every expected line is worked out by hand.</summary>
public class SkippedWaterTests
{
    /// <summary>Zones a, b and c from 06:00 on, 10 min each.</summary>
    private const string Steps = "steps { water a, b, c for 10 min }";

    [Fact]
    public void A_cut_takes_the_end_of_the_run_that_it_meets_and_all_that_comes_later() => Assert.Equal(
        ["a 06:00:00 600", "b 06:10:00 300", "b: Cut 1 run 300 s from 06:10:00 to 06:10:00", "c: Cut 1 run 600 s from 06:20:00 to 06:20:00"],
        Lines($"schedule s {{ on 2026-06-01; start at 06:00; cut off at 06:15; {Steps} }}"));

    [Fact]
    public void A_cut_at_the_second_at_which_the_last_run_ends_takes_nothing() => Assert.Equal(
        ["a 06:00:00 600", "b 06:10:00 600", "c 06:20:00 600"], Lines($"schedule s {{ on 2026-06-01; start at 06:00; cut off at 06:30; {Steps} }}"));

    [Fact]
    public void A_cut_at_the_second_at_which_a_run_starts_takes_all_of_it() => Assert.Equal(
        ["a 06:00:00 600", "b 06:10:00 600", "c: Cut 1 run 600 s from 06:20:00 to 06:20:00"],
        Lines($"schedule s {{ on 2026-06-01; start at 06:00; cut off at 06:20; {Steps} }}"));

    /// <summary>Of the ten minutes of b the cut takes the last two, and the hold the three before them.</summary>
    [Fact]
    public void What_a_cut_takes_a_hold_does_not_take_again() => Assert.Equal(
        [
            "a 06:00:00 600", "b 06:10:00 300", "b: Cut 1 run 120 s from 06:10:00 to 06:10:00", "b: Hold 1 run 180 s from 06:10:00 to 06:10:00",
            "c: Cut 1 run 600 s from 06:20:00 to 06:20:00",
        ],
        Lines($"schedule s {{ on 2026-06-01; start at 06:00; cut off at 06:18; {Steps} }}\n"
            + "hold b from 2026-06-01 06:15 to 2026-06-01 07:00 because \"mowing\""));

    /// <summary>What ends as a hold begins, and what starts as it ends, comes whole.</summary>
    [Fact]
    public void A_hold_takes_nothing_of_its_neighbours() => Assert.Equal(
        ["a 06:00:00 600", "c 06:20:00 600", "b: Hold 1 run 600 s from 06:10:00 to 06:10:00"],
        Lines($"schedule s {{ on 2026-06-01; start at 06:00; {Steps} }}\nhold from 2026-06-01 06:10 to 2026-06-01 06:20 because \"mowing\""));

    /// <summary>Nothing is left of the first, so the second does not start: it would have, where the first would have ended.</summary>
    [Theory]
    [InlineData("hold a from 2026-06-01 06:00 to 2026-06-01 06:10")]
    [InlineData("hold a from 2026-06-01 05:59 to 2026-06-01 06:01")]
    public void What_starts_after_a_held_schedule_is_taken_by_its_hold(string hold) => Assert.Equal(
        ["a: Hold 1 run 600 s from 06:00:00 to 06:00:00", "b: Hold 1 run 300 s from 06:10:00 to 06:10:00"],
        Lines($$"""
            schedule first { on 2026-06-01; start at 06:00; steps { water a for 10 min } }
            schedule second { start after first; steps { water b for 5 min } }
            {{hold}} because "mowing"
            """));

    /// <summary>The run would start at the second of the cut: a hold that begins then has nothing to take.</summary>
    [Fact]
    public void What_starts_after_a_schedule_that_is_cut_off_whole_is_taken_by_the_cut() => Assert.Equal(
        ["a: Cut 1 run 600 s from 06:10:00 to 06:10:00", "b: Cut 1 run 300 s from 06:20:00 to 06:20:00"],
        Lines("""
            schedule first { on 2026-06-01; start at 06:00; cut off at 06:10; steps { pause 10 min; water a for 10 min } }
            schedule second { start after first; steps { water b for 5 min } }
            hold a from 2026-06-01 06:10 to 2026-06-01 07:00 because "mowing"
            """));

    [Fact]
    public void A_hold_is_in_force_from_its_first_second_to_the_last_before_its_end()
    {
        var site = Read(Garden("""
            schedule s { every day; start at 06:00; steps { water a for 10 min } }
            hold a from 2026-06-01 06:00 to 2026-06-01 07:00 because "mowing"
            hold b from 2026-06-01 06:30 until lifted because "sowing"
            """));
        var six = new LocalDateTime(2026, 6, 1, 6, 0).InZoneStrictly(site.TimeZone).ToInstant().ToUnixTimeSeconds();
        var holds = Holds.Of(site, new ZoneClock(site.TimeZone));
        string InForce(long second) =>
            string.Join(' ', holds.At(six + second).Select(hold => hold.Hold.Zones[0].Name + (hold.Until < long.MaxValue ? hold.Until - six : -1)));
        Assert.Equal(["", "a3600", "a3600", "a3600 b-1", "a3600 b-1", "b-1"], new[] { -1L, 0, 1_799, 1_800, 3_599, 3_600 }.Select(InForce));
    }

    private static string[] Lines(string schedules)
    {
        var site = Read(Garden(schedules));
        var skipped = new SkippedWater();
        string Clock(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(site.TimeZone).ToString("HH:mm:ss", null);
        var runs = Timetable.Of(site, Horizon.DaysFrom(new(2026, 6, 1), 1)).Runs(skipped)
            .Select(run => $"{site.Zones[run.Zone].Name} {Clock(run.Start)} {run.Seconds}").ToList();
        return
        [
            .. runs,
            .. skipped.Water.Select(water =>
                $"{water.Zone.Name}: {water.By} {water.Runs} run {water.Seconds} s from {Clock(water.First)} to {Clock(water.Last)}")
                .Order(StringComparer.Ordinal),
        ];
    }
}
