using NodaTime;
using WaterScript.Timetables;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Timetables;

/// <summary>What a pass does; every expected line is worked out by hand.</summary>
public class StepTests
{
    private static string[] Steps(string steps, string more = "") =>
        [.. RunLines(Garden($"{more}\nschedule s {{ on 2026-06-01; start at 06:00; steps {{ {steps} }} }}"), "2026-06-01", 1)
            .Select(line => line["2026-06-01 ".Length..].Replace(" +01", "", StringComparison.Ordinal).Replace(" s s ", " s ", StringComparison.Ordinal))];

    [Fact]
    public void ACommaMeansThenAndAPlusMeansTogether() =>
        Assert.Equal(["06:00:00 a 600 s 1", "06:00:00 b 600 s 1", "06:10:00 c 600 s 1"], Steps("water a + b, c for 10 min"));

    [Fact]
    public void AZoneMayComeTwiceInAList() =>
        Assert.Equal(["06:00:00 a 60 s 1", "06:01:00 b 60 s 1", "06:02:00 a 60 s 1"], Steps("water a, b, a for 1 min"));

    [Fact]
    public void APauseIsWaitedAlsoAtTheStart() =>
        Assert.Equal(["06:05:00 a 60 s 2", "06:08:00 b 60 s 4"], Steps("pause 5 min; water a for 1 min; pause 2 min; water b for 1 min"));

    [Fact]
    public void ARepetitionCountsInThePath() =>
        Assert.Equal(
            ["06:00:00 a 7 s 1#1.1", "06:00:07 b 7 s 1#1.2", "06:00:14 a 7 s 1#2.1", "06:00:21 b 7 s 1#2.2", "06:00:28 c 60 s 2"],
            Steps("repeat 2 times { water a for 7 s; water b for 7 s }; water c for 1 min"));

    [Fact]
    public void ASequenceStandsInItsPlace() =>
        Assert.Equal(
            ["06:00:00 c 60 s 1", "06:01:00 a 120 s 2.1", "06:04:00 b 120 s 2.3"],
            Steps("water c for 1 min; run round", "sequence round { water a for 2 min; pause 1 min; water b for 2 min }"));

    [Fact]
    public void AGroupStandsForItsZones() =>
        Assert.Equal(
            ["06:00:00 a 60 s 1", "06:00:00 b 60 s 1", "06:01:00 c 60 s 1", "06:02:00 a 60 s 2", "06:03:00 b 60 s 2", "06:04:00 c 60 s 2"],
            Steps("water front for 1 min; water all for 1 min", "group front = a + b, c"));

    [Fact]
    public void ALetNamesALength() =>
        Assert.Equal(["06:00:00 a 90 s 1", "06:03:00 b 90 s 3"], Steps("water a for short; pause short; water b for short", "let short = 1 min 30 s"));

    [Fact]
    public void APassOutsideTheCalendarRunsWhenAsked()
    {
        var site = Read(Garden("schedule walk { manual; steps { water all for 1 min } }"));
        Assert.Empty(Timetable.Of(site, Horizon.YearFrom(site.Effective)).Runs());
        Assert.Equal(
            ["2026-06-01 09:00:00 +01 a 60 s walk 1", "2026-06-01 09:01:00 +01 b 60 s walk 1", "2026-06-01 09:02:00 +01 c 60 s walk 1"],
            RunLines(Timetable.OfOnePass(site, site.Schedules[0], new LocalDateTime(2026, 6, 1, 9, 0))));
    }

    [Fact]
    public void TotalsAddUpRunsTimeAndWater()
    {
        var timetable = Timetable.Of(Read(Garden("schedule s { every day; start at 06:00; steps { water a, b for 10 min } }")), Horizon.DaysFrom(new LocalDate(2026, 6, 1), 3));
        var totals = new ZoneTotals(timetable.Site);
        foreach (var run in timetable.Runs()) totals.Add(run);
        // 6 L/min for 30 min is 180 L, on 20 m² 9 mm, since 1 L on 1 m² stands 1 mm deep.
        Assert.Equal([("a", 3L, 1800L, 180m, 9m), ("b", 3L, 1800L, null, null), ("c", 0L, 0L, null, (decimal?)null)],
            totals.ByZone().Select(total => (total.Zone.Name, total.Runs, total.Seconds, total.Litres, total.Millimetres)));
    }
}
