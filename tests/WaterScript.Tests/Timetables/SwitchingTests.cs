using NodaTime;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Timetables;

/// <summary>Switchings worked out by hand; each line is seconds from 06:00 UTC, what is done, and for which opening.</summary>
public class SwitchingTests
{
    private const long Six = 1_777_615_200; // 2026-05-01T06:00:00Z

    [Fact]
    public void What_opens_together_opens_one_by_one_where_the_controller_has_a_spacing() =>
        Assert.Equal(
            ["0.000 open 1 for 1", "0.300 open 2 for 2", "0.600 open 3 for 3", "60.000 close 1 for 1", "60.000 close 2 for 2", "60.000 close 3 for 3"],
            Lines("controller c { stagger 300 ms }\nvalve v non-latching {}", "water a + b + c for 1 min"));

    [Fact]
    public void Without_a_spacing_all_is_done_at_once_and_a_close_goes_before_an_open() =>
        Assert.Equal(
            ["0.000 open 1 for 1", "0.000 open 3 for 2", "60.000 close 1 for 1", "60.000 close 3 for 2", "60.000 open 2 for 3", "120.000 close 2 for 3"],
            Lines("valve v non-latching {}", "water a + c, b for 1 min"));

    [Fact]
    public void A_close_by_a_pulse_waits_its_turn_as_an_open_does() =>
        Assert.Equal(
            ["0.000 open 1 for 1", "2.000 open 3 for 2", "60.000 close 1 for 1", "62.000 close 3 for 2", "64.000 open 2 for 3", "120.000 close 2 for 3"],
            Lines("controller c { stagger 2 s }\nvalve v latching { pulse 50 ms }", "water a + c, b for 1 min"));

    /// <summary>The third opening is due to end before its turn to open has come.</summary>
    [Fact]
    public void A_close_waits_for_its_own_open() =>
        Assert.Equal(
            ["0.000 open 1 for 1", "1.000 close 1 for 1", "1.500 open 2 for 2", "1.500 close 2 for 2", "3.000 open 3 for 3", "3.000 close 3 for 3"],
            Lines("controller c { stagger 1500 ms }\nvalve v non-latching {}", "water a + b + c for 1 s"));

    [Fact]
    public void A_delay_runs_on_into_what_is_due_later() =>
        Assert.Equal(
            ["0.000 open 1 for 1", "3.000 open 2 for 2", "6.000 open 3 for 3", "7.000 close 1 for 1", "7.000 close 2 for 2", "7.000 close 3 for 3",
                "9.000 open 1 for 4", "15.000 close 1 for 4"],
            Lines("controller c { stagger 3 s }\nvalve v non-latching {}", "water a + b + c for 7 s\n pause 1 s\n water a for 7 s"));

    [Fact]
    public void A_pump_that_is_wired_to_nothing_is_not_switched() =>
        Assert.Equal(["0.000 open 1 for 2", "60.000 close 1 for 2"],
            Lines("valve v non-latching {}\npump p { zones a; starts 2 s before zones }", "water a for 1 min"));

    /// <summary>
    /// At the end of 60 days the slow one is years behind with 172,800 openings, one in ten minutes, each of which takes one action. Were each
    /// action of the quick one to find its place past them, this would take minutes.
    /// </summary>
    [Fact]
    public void A_controller_that_is_far_behind_delays_no_other()
    {
        const int openings = 2 * 60 * 24 * 60;
        var switchings = Timetable.Of(
            Sites.Read("""
                site garden { timezone UTC; effective 2026-01-01 }
                controller quick { outputs 2 }
                controller slow { outputs 2; stagger 10 min }
                valve v non-latching {}
                zone a { output 1 of quick; valve v }
                zone b { output 2 of quick; valve v }
                zone c { output 1 of slow; valve v }
                zone d { output 2 of slow; valve v }
                schedule s { every day; start at 00:00; repeat every 1 min for 1440 passes; steps { water a, b, c, d for 10 s } }
                """),
            Horizon.DaysFrom(new LocalDate(2026, 1, 1), 60)).Switchings().ToList();
        var quick = switchings.Where(switching => switching.Controller == 0).ToList();
        Assert.Equal(2 * openings, quick.Count);
        Assert.All(quick, switching => Assert.Equal(0, switching.Milliseconds % 10_000));
        var slow = switchings.Where(switching => switching is { Controller: 1, IsOpen: true }).ToList();
        Assert.Equal(openings, slow.Count);
        Assert.Equal((openings - 1) * 600_000L, slow[^1].Milliseconds - slow[0].Milliseconds);
    }

    [Theory]
    [InlineData(1_999, 1, 999)]
    [InlineData(2_000, 2, 0)]
    [InlineData(-1, -1, 999)]
    [InlineData(-1_000, -1, 0)]
    public void Milliseconds_stand_after_a_whole_second(long milliseconds, long second, int after)
    {
        var switching = new Switching(milliseconds, 0, 1, true, 1, 0, -1);
        Assert.Equal((second, after), (switching.Second, switching.AfterMilliseconds));
    }

    private static string[] Lines(string hardware, string steps)
    {
        var text = $$"""
            site garden { timezone UTC; effective 2026-01-01 }
            {{hardware}}
            zone a { output 1; valve v }
            zone b { output 2; valve v }
            zone c { output 3; valve v }
            schedule s { every day; start at 06:00; steps { {{steps}} } }
            """;
        return [.. Timetable.Of(Sites.Read(text), Horizon.DaysFrom(new LocalDate(2026, 5, 1), 1)).Switchings()
            .Select(switching => $"{switching.Second - Six}.{switching.AfterMilliseconds:000} {(switching.IsOpen ? "open" : "close")} "
                + $"{switching.Output} for {switching.Opening}")];
    }
}
