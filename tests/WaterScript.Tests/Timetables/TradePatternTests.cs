using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Timetables;

/// <summary>Patterns that a small controller must survive (common practice, no source), to the second.</summary>
public class TradePatternTests
{
    [Fact]
    public void TwoValvesAlternateEveryFiveSeconds()
    {
        var lines = RunLines(Garden("schedule s { on 2026-06-01; start at 06:00; steps { repeat 3 times { water a, b for 5 s } } }"), "2026-06-01", 1);
        Assert.Equal(
            ["06:00:00 +01 a", "06:00:05 +01 b", "06:00:10 +01 a", "06:00:15 +01 b", "06:00:20 +01 a", "06:00:25 +01 b"],
            lines.Select(line => line[11..line.IndexOf(" 5 s", StringComparison.Ordinal)]));
    }

    [Fact]
    public void OneValveIsOnAndOffAndOnForFiveSeconds() =>
        Assert.Equal(
            ["2026-06-01 06:00:00 +01 a 5 s s 1", "2026-06-01 06:00:10 +01 a 5 s s 3"],
            RunLines(Garden("schedule s { on 2026-06-01; start at 06:00; steps { water a for 5 s; pause 5 s; water a for 5 s } }"), "2026-06-01", 1));

    [Theory]
    [InlineData("water a for 1 min 30 s; water b for 2 min; water c for 10 min", "a 06:00:00 90 b 06:01:30 120 c 06:03:30 600")]
    [InlineData("water c for 10 min; water a for 1 min 30 s; water b for 2 min", "c 06:00:00 600 a 06:10:00 90 b 06:11:30 120")]
    [InlineData("water b for 2 min; water c for 10 min; water a for 1 min 30 s", "b 06:00:00 120 c 06:02:00 600 a 06:12:00 90")]
    public void ThreeZonesRunInAnyOrder(string steps, string expected)
    {
        var lines = RunLines(Garden($"schedule s {{ on 2026-06-01; start at 06:00; steps {{ {steps} }} }}"), "2026-06-01", 1);
        Assert.Equal(expected, string.Join(' ', lines.Select(line => line.Split(' ')).Select(words => $"{words[3]} {words[1]} {words[4]}")));
    }

    [Fact]
    public void AStartIsRepeatedEveryHourThreePasses() =>
        Assert.Equal(
            ["2026-06-01 06:00:00 +01", "2026-06-01 07:00:00 +01", "2026-06-01 08:00:00 +01"],
            PassLines(Garden("schedule s { on 2026-06-01; start at 06:00; repeat every 60 min for 3 passes; steps { water a for 1 min } }"), "2026-06-01", 2));

    [Fact]
    public void FourStartsADay() =>
        Assert.Equal(
            ["2026-06-01 06:00:00 +01", "2026-06-01 10:30:00 +01", "2026-06-01 15:00:00 +01", "2026-06-01 20:15:00 +01"],
            PassLines(Garden("schedule s { on 2026-06-01; start at 06:00, 10:30, 15:00, 20:15; steps { water a for 1 min } }"), "2026-06-01", 2));

    /// <summary>Counted from the calendar: 186 odd and 179 even dates in 365 days, 187 and 179 in a leap year.</summary>
    [Theory]
    [InlineData("2026-01-01", "odd days", 365, 186)]
    [InlineData("2026-01-01", "even days", 365, 179)]
    [InlineData("2028-01-01", "odd days", 366, 187)]
    [InlineData("2028-01-01", "even days", 366, 179)]
    public void OddAndEvenDatesOfAYear(string from, string days, int length, int expected) =>
        Assert.Equal(expected, Dates(Garden($"schedule s {{ on {days}; start at 06:00; steps {{ water a for 1 min }} }}"), from, length).Length);

    [Fact]
    public void WithoutThe31stOddDatesAreAsManyAsEvenOnes() =>
        Assert.Equal(179, Dates(Garden("schedule s { on odd days; except days 31 of month; start at 06:00; steps { water a for 1 min } }"), "2026-01-01",
            365).Length);
}
