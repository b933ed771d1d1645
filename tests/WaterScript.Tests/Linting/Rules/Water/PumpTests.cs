using Xunit;

namespace WaterScript.Tests.Linting.Rules.Water;

/// <summary>What pumps and masters do to the water that flows or stands.</summary>
public class PumpTests
{
    private static string Site(string lines) => $"site plot {{ timezone Etc/UTC; effective 2026-03-01 }}\n{lines}\n";

    private static string Gap(string supply, string pump, string first) => Site(
        $$"""
        supply well { {{supply}} }
        zone lawn { output 1; flow 16 L/min }
        pump lift { output 8; load 60 mA; {{pump}} }
        schedule s { every day; start at 06:00; steps { water lawn for {{first}}; pause 1 min; water lawn for 10 min } }
        """);

    /// <summary>After 30 s and 60 s without water a pump that starts 70 s late has run for 20 s, and for 5 s where it starts 85 s late.</summary>
    [Theory]
    [InlineData("starts 20 s after zones", "30 s", 1)]
    [InlineData("starts 70 s after zones", "30 s", 1)]
    [InlineData("starts 85 s after zones", "30 s", 0)]
    [InlineData("starts 85 s after zones", "1 min", 1)]
    public void A_pump_that_starts_late_is_alone_only_from_then_on(string starts, string first, int findings) =>
        Assert.Equal(findings, Lint.Of(Gap("flow 20 L/min", $"bridges gaps up to 5 min; {starts}", first), "pump-without-flow").Length);

    [Theory]
    [InlineData("zones lawn", "flow 20 L/min", 1)]
    [InlineData("zones lawn", "flow 20 L/min; pressure-tank 24 L from 2 bar to 3.5 bar", 0)]
    [InlineData("supply well", "flow 20 L/min; bypass", 0)]
    public void What_the_pump_presses_against_may_give_way(string serves, string supply, int findings) =>
        Assert.Equal(findings, Lint.Of(Gap(supply, $"{serves}; bridges gaps up to 5 min", "10 min"), "pump-without-flow").Length);

    private static string Closing(string supplies, string device, string steps) => Site(
        $$"""
        {{supplies}}
        zone lawn { output 1; supply tap; flow 16 L/min }
        zone beds { output 2; supply tap; flow 10 L/min }
        zone pots { output 3; supply tap; flow 1 L/min }
        {{device}}
        schedule s { every day; start at 06:00; steps { {{steps}} } }
        """);

    /// <summary>26 L/min stop at once, which is more than half of what either supply gives.</summary>
    [Theory]
    [InlineData("supply tap { flow 50 L/min }", 1)]
    [InlineData("supply tap { flow 52 L/min }", 0)]
    [InlineData("supply main { flow 50 L/min }\nsupply tap { flow 50 L/min; fed-by main }", 2)]
    [InlineData("supply main { flow 50 L/min }\nsupply tap { flow 50 L/min; fed-by main; tank 1 m3 }", 1)]
    public void Water_that_stops_strikes_in_the_supply_and_in_what_feeds_it(string supplies, int findings) =>
        Assert.Equal(findings, Lint.Of(Closing(supplies, "", "water lawn + beds for 10 min"), "water-hammer").Length);

    /// <summary>A pump that stops 5 s early takes the flow from the last valves to close, not from those that close while it runs for another.</summary>
    [Theory]
    [InlineData("pump lift { output 8; load 60 mA; supply tap; stops 5 s before zones }", "water lawn + beds for 10 min", 0)]
    [InlineData("pump lift { output 8; load 60 mA; supply tap }", "water lawn + beds for 10 min", 1)]
    [InlineData("pump lift { output 8; load 60 mA; supply tap; stops 5 s before zones }", "water lawn + beds for 10 min; water pots for 10 min", 1)]
    public void Valves_behind_a_pump_that_is_off_stop_nothing(string pump, string steps, int findings) =>
        Assert.Equal(findings, Lint.Of(Closing("supply tap { flow 50 L/min }", pump, steps), "water-hammer").Length);

    /// <summary>Ten starts, 8 min apart: eight of them lie within an hour. Without a limit that is not checked, and the report says so.</summary>
    [Theory]
    [InlineData("", true, 0)]
    [InlineData("; at most 8 starts an hour", false, 0)]
    [InlineData("; at most 7 starts an hour", false, 1)]
    public void Starts_of_a_motor_without_a_limit_are_not_checked(string limit, bool isOpen, int findings)
    {
        var report = Lint.Of(Site($$"""
            supply well { flow 20 L/min }
            zone mist { output 1; flow 5 L/min }
            pump lift { output 8; load 60 mA; zones mist{{limit}} }
            schedule s { every day; start at 06:00; repeat every 8 min for 10 passes; steps { water mist for 30 s } }
            """));
        Assert.Equal(isOpen, report.NotChecked.Any(gap => gap.Sentence == "starts an hour of pump lift (add at most … starts an hour)"));
        Assert.Equal(findings, report.Findings.Count(finding => finding.Rule.Slug == "pump-starts"));
    }
}
