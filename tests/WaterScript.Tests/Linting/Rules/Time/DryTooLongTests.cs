using Xunit;

namespace WaterScript.Tests.Linting.Rules.Time;

/// <summary>Which days count as dry.</summary>
public class DryTooLongTests
{
    private static int Found(string zone, string schedules) => Lint.Of(
        $$"""
        site plot { timezone Etc/UTC; effective 2026-06-01 }
        supply tap { change-over overlap 10 s }
        zone lawn { output 1 }
        zone beds { output 2; {{zone}} }
        {{schedules}}
        """,
        "dry-too-long").Length;

    private const string Summer = "schedule first { every day; from 1 jun to 31 aug; start at 06:00; steps { water lawn for 10 min } }";

    [Theory]
    [InlineData("schedule second { start after first; steps { water beds for 10 min } }", 0)]
    [InlineData("schedule second { start after first; start at 08:00; except 1 jul to 31 jul; steps { water beds for 10 min } }", 1)]
    public void What_follows_a_schedule_rests_in_winter_with_it(string second, int findings) =>
        Assert.Equal(findings, Found("never-dry-for 26 h", $"{Summer}\n{second}"));

    [Theory]
    [InlineData("never-dry-for 26 h; trim 0 %", 1)]
    [InlineData("never-dry-for 26 h; trim 50 %", 0)]
    public void A_zone_of_which_trim_leaves_nothing_is_dry(string zone, int findings) =>
        Assert.Equal(findings, Found(zone, "schedule s { every day; start at 06:00; steps { water beds for 10 min } }"));

    /// <summary>The valve of the beds stays open 10 s for the change-over, which makes 23 h 50 min of 23 h 50 min 10 s.</summary>
    [Fact]
    public void An_overlap_is_water_too() =>
        Assert.Equal(0, Found("never-dry-for 1430 min", "schedule s { every day; start at 00:10; steps { water beds for 9 min 50 s; water lawn for 1 min } }"));
}
