using Xunit;

namespace WaterScript.Tests.Linting.Rules;

/// <summary>
/// What is just at a limit is silent, in whatever units the limit and its parts are written; the least that somebody could write beyond it is found. By hand:
/// 3 · 8 L/h = 24 L/h = 0.4 L/min, which give 4 L in 10 min; 8 L/h on 8 m2 are 1 mm/h, 0.5 mm in half an hour.
/// </summary>
public class ExactLimitsTests
{
    [Theory]
    [InlineData("flow-over-supply", "flow 0.4 L/min", "8 L/h", false)]
    [InlineData("flow-over-supply", "flow 0.4 L/min", "8.00000001 L/h", true)]
    [InlineData("flow-over-supply", "flow 24 L/h", "8 L/h", false)]
    [InlineData("flow-over-supply", "flow 23.99999999 L/h", "8 L/h", true)]
    [InlineData("flow-over-supply", "flow 3 gph", "1 gph", false)]
    [InlineData("flow-over-supply", "flow 3 gph", "1.00000001 gph", true)]
    [InlineData("flow-under-minimum", "flow 9 L/min; minimum-flow 0.4 L/min", "8 L/h", false)]
    [InlineData("flow-under-minimum", "flow 9 L/min; minimum-flow 0.4 L/min", "7.99999999 L/h", true)]
    [InlineData("daily-volume", "flow 9 L/min; daily 4 L", "8 L/h", false)]
    [InlineData("daily-volume", "flow 9 L/min; daily 4 L", "8.00000001 L/h", true)]
    public void Of_flows_and_volumes(string rule, string supply, string flow, bool isFound) => Found(rule, isFound, $$"""
        supply spring { {{supply}} }
        zone a { output 1; flow {{flow}}; area 8 m2 }
        zone b { output 2; flow 8 L/h }
        zone c { output 3; flow 8 L/h }
        schedule s { every day; start at 06:00; steps { water a + b + c for 10 min } }
        """.Replace("8 L/h }", flow.EndsWith("gph", StringComparison.Ordinal) ? "1 gph }" : "8 L/h }", StringComparison.Ordinal));

    [Theory]
    [InlineData("holding-current", "continuous 500 mA at 24 V; peak 9 A", "250 mA", false)]
    [InlineData("holding-current", "continuous 500 mA at 24 V; peak 9 A", "250.000001 mA", true)]
    [InlineData("holding-current", "continuous 0.499999999 A at 24 V; peak 9 A", "250 mA", true)]
    [InlineData("inrush-current", "continuous 400 mA at 24 V; peak 500 mA", "250 mA", false)]
    [InlineData("inrush-current", "continuous 400 mA at 24 V; peak 500 mA", "250.000001 mA", true)]
    [InlineData("inrush-current", "transformer 12 VA at 24 V", "250 mA", false)]
    [InlineData("inrush-current", "transformer 12 VA at 24 V", "250.000001 mA", true)]
    public void Of_currents(string rule, string power, string current, bool isFound) => Found(rule, isFound, $$"""
        controller box { outputs 2; stagger 0 s; power { {{power}} } }
        valve one non-latching { inrush 250 mA; holding {{(rule == "holding-current" ? "250 mA" : "100 mA")}} }
        valve two non-latching { inrush {{current}}; holding {{(rule == "holding-current" ? current : "100 mA")}} }
        zone a { output 1; valve one }
        zone b { output 2; valve two }
        schedule s { every day; start at 06:00; steps { water a + b for 10 min } }
        """);

    [Theory]
    [InlineData("30 min", "at most 0.5 mm a day", false)]
    [InlineData("1801 s", "at most 0.5 mm a day", true)]
    [InlineData("30 min", "at most 0.49999999 mm a day", true)]
    public void Of_depths(string time, string limit, bool isFound) => Found("daily-depth-limit", isFound, $$"""
        zone a { output 1; flow 8 L/h; area 8 m2 }
        restriction town { {{limit}} }
        schedule s { every day; start at 06:00; steps { water a for {{time}} } }
        """);

    private static void Found(string rule, bool isFound, string lines) =>
        Assert.Equal(isFound ? 1 : 0, Lint.Of($"site plot {{ timezone Etc/UTC; effective 2026-03-01 }}\n{lines}", rule).Length);
}
