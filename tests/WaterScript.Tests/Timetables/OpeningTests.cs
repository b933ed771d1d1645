using NodaTime;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Timetables;

/// <summary>Openings worked out by hand; each line is the output, and seconds from 06:00 UTC to its beginning and end, and the numbers of its runs.</summary>
public class OpeningTests
{
    private const long Six = 1_777_615_200; // 2026-05-01T06:00:00Z

    [Fact]
    public void Runs_of_a_zone_that_touch_are_one_opening() =>
        Assert.Equal(["1: 0 to 180 of 1 2"], Lines("", "water a for 1 min\n water a for 2 min"));

    [Fact]
    public void A_pause_closes_the_valve() =>
        Assert.Equal(["1: 0 to 60 of 1", "1: 61 to 121 of 2"], Lines("", "water a for 1 min\n pause 1 s\n water a for 1 min"));

    [Fact]
    public void A_pump_starts_before_and_stops_after_its_zones() =>
        Assert.Equal(
            ["9: -5 to 130 of 1 2", "1: 0 to 60 of 1", "2: 60 to 120 of 2"],
            Lines("pump p { output 9; zones a, b; starts 5 s before zones; stops 10 s after zones }", "water a, b for 1 min"));

    [Theory]
    [InlineData(30, "9: 0 to 150 of 1 2")]
    [InlineData(31, "9: 0 to 60 of 1")]
    public void A_pump_bridges_gaps_up_to_a_gap_no_longer_than_it_says(int pause, string first) =>
        Assert.Equal(first, Lines("pump p { output 9; zones a; bridges gaps up to 30 s }", $"water a for 1 min\n pause {pause} s\n water a for 1 min")[1]);

    [Theory]
    [InlineData(60, 1)]
    [InlineData(61, 2)]
    public void Zones_that_are_too_short_for_a_master_that_opens_late_leave_it_shut(int seconds, int openings) =>
        Assert.Equal(openings, Lines("master m { output 9; zones a; starts 60 s after zones }", $"water a for {seconds} s").Length);

    /// <summary>The pump of the second run begins just as the first run did, and its output goes before: the first waits for it.</summary>
    [Fact]
    public void What_begins_together_comes_by_outputs() =>
        Assert.Equal(
            ["9: 0 to 80 of 2", "12: 0 to 10 of 1", "1: 20 to 80 of 2"],
            Lines("zone d { output 12 }\npump p { output 9; zones a; starts 20 s before zones }", "water d for 10 s\n pause 10 s\n water a for 1 min"));

    /// <summary>A dose of its own length begins after what stands before it, and the parts of a step have one each.</summary>
    [Fact]
    public void A_dose_of_its_own_length_is_dosed_once_for_each_part() =>
        Assert.Equal(
            ["1: 0 to 300 of 1", "2: 0 to 600 of 2 3", "9: 60 to 180 of 1 2", "9: 360 to 480 of 3"],
            Lines("injector i { output 9; zones a, b; after 1 min; rinse 2 min }", "water a + b, b for 5 min through i for 2 min"));

    /// <summary>0.2 L at 10 L/h are 72 s: with a minute before and two after that needs 252 s.</summary>
    [Theory]
    [InlineData(252, "9: 60 to 132 of 1")]
    [InlineData(251, null)]
    public void A_dose_that_does_not_fit_is_none(int seconds, string? dose) =>
        Assert.Equal(dose, Lines("injector i { output 9; zones a; after 1 min; rinse 2 min; doses 10 L/h }", $"water a for {seconds} s through i with 0.2 L")
            .FirstOrDefault(line => line.StartsWith("9:", StringComparison.Ordinal)));

    /// <summary>The shortest of what begins together decides; scale makes the watering shorter, and not the dose.</summary>
    [Theory]
    [InlineData("water a for 4 min + b for 9 min through i for 1 min", "9: 60 to 120 of 1 2")]
    [InlineData("water a for 239 s + b for 9 min through i for 1 min", null)]
    [InlineData("repeat 2 times { water a for 4 min through i for 1 min }", "9: 60 to 120 of 1")]
    public void The_shortest_of_what_begins_together_decides(string steps, string? dose) =>
        Assert.Equal(dose, Lines("injector i { output 9; zones a, b; after 1 min; rinse 2 min }", steps)
            .FirstOrDefault(line => line.StartsWith("9:", StringComparison.Ordinal)));

    /// <summary>Each output goes with the zones of its own controller; those of a controller without one go with the first that is named.</summary>
    [Fact]
    public void Each_controller_switches_a_pump_for_its_own_zones() =>
        Assert.Equal(
            [
                "9 of one: -5 to 70", "1 of one: 0 to 60", "8 of two: 55 to 130", "2 of two: 60 to 120", "9 of one: 115 to 190", "3 of three: 120 to 180",
            ],
            OfControllers("pump p { output 9 of one, 8 of two; zones a, b, c; load 60 mA; starts 5 s before zones; stops 10 s after zones }"));

    [Fact]
    public void A_pump_bridges_gaps_between_the_zones_of_one_controller() =>
        Assert.Equal(
            ["1 of one: 0 to 60", "9 of one: 0 to 180", "2 of two: 60 to 120", "8 of two: 60 to 120", "3 of three: 120 to 180"],
            OfControllers("pump p { output 9 of one, 8 of two; zones a, b, c; load 60 mA; bridges gaps up to 60 s }"));

    [Fact]
    public void An_injector_is_switched_by_the_controller_of_the_zone() =>
        Assert.Equal(
            ["1 of one: 0 to 60", "9 of one: 20 to 60", "2 of two: 60 to 120", "8 of two: 80 to 120", "3 of three: 120 to 180", "9 of one: 140 to 180"],
            OfControllers("injector p { output 9 of one, 8 of two; zones a, b, c; load 60 mA; after 20 s }", " through p"));

    private static string[] OfControllers(string device, string through = "")
    {
        var site = Sites.Read($$"""
            site plot { timezone UTC; effective 2026-05-01 }
            controller one { outputs 9 }
            controller two { outputs 9 }
            controller three { outputs 9 }
            zone a { output 1 of one }
            zone b { output 2 of two }
            zone c { output 3 of three }
            {{device}}
            schedule s { every day; start at 06:00; steps { water a, b, c for 1 min{{through}} } }
            """);
        return [.. Timetable.Of(site, Horizon.DaysFrom(new LocalDate(2026, 5, 1), 1)).Openings()
            .Select(opening => $"{opening.Output} of {site.Controllers[opening.Controller].Name}: {opening.From - Six} to {opening.To - Six}")];
    }

    private static string[] Lines(string devices, string steps)
    {
        var site = Sites.Read(Sites.Garden($"{devices}\nschedule s {{\n every day\n start at 06:00\n steps {{\n {steps}\n }}\n}}", timeZone: "UTC"));
        return [.. Timetable.Of(site, Horizon.DaysFrom(new LocalDate(2026, 5, 1), 1)).Openings()
            .Select(opening => $"{opening.Output}: {opening.From - Six} to {opening.To - Six} of {string.Join(' ', opening.Runs)}")];
    }
}
