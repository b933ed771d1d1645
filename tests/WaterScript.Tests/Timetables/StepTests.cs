using NodaTime;
using WaterScript.Simulation.Water;
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
    public void SeveralLengthsBeginTogetherAndTheNextStepWaitsForTheLongest() =>
        Assert.Equal(
            ["06:00:00 a 240 s 1", "06:00:00 b 600 s 1", "06:00:00 c 600 s 1", "06:10:00 a 60 s 2"],
            Steps("water a for 4 min + b + c for 10 min; water a for 1 min"));

    /// <summary>Of 10 min none is over 4 min in three pieces; the 4 min beside it are dealt out to three as well, and soak from their own ends.</summary>
    [Fact]
    public void ACycleSplitsLengthsThatBeginTogetherIntoAsManyPieces() =>
        Assert.Equal(
            [
                "06:00:00 a 200 s 1#1.1", "06:00:00 b 80 s 1#1.1", "06:13:20 a 200 s 1#2.1", "06:13:20 b 80 s 1#2.1", "06:26:40 a 200 s 1#3.1",
                "06:26:40 b 80 s 1#3.1",
            ],
            Steps("cycle 4 min soak 10 min { water a for 10 min + b for 4 min }"));

    /// <summary>Half of 4 min is under the shortest of d; a and b go on without it, each by its own length.</summary>
    [Fact]
    public void OneThatIsLeftOutDoesNotHoldUpTheOthers() =>
        Assert.Equal(
            ["2026-06-01 06:00:00 +01 a 300 s s 1", "2026-06-01 06:00:00 +01 b 45 s s 1", "2026-06-01 06:05:00 +01 c 30 s s 2"],
            RunLines(Garden("zone d { output 4; shortest 3 min }\nschedule s { on 2026-06-01; start at 06:00; scale 50 %; "
                + "steps { water a for 10 min + d for 4 min + b for exactly 45 s; water c for 1 min } }"), "2026-06-01", 1));

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

    /// <summary>6 L/min on 20 m² are 18 mm/h: 3 mm take 10 min, and 12 L 2 min.</summary>
    [Fact]
    public void AnAmountTakesAsLongAsItsZoneNeeds() =>
        Assert.Equal(["06:00:00 a 600 s 1", "06:10:00 a 120 s 2"], Steps("water a with 3 mm; water a with 12 L"));

    /// <summary>At 18 mm/h a takes 600 s for 3 mm and d, at 36 mm/h and 80 %, 375 s; c waits for the longer of the two.</summary>
    [Fact]
    public void TogetherEachRunsAsLongAsItNeedsAndThePartAsLongAsTheLongest() =>
        Assert.Equal(
            ["06:00:00 a 600 s 1", "06:00:00 d 375 s 1", "06:10:00 d 375 s 1", "06:16:15 c 60 s 2"],
            Steps("water a + d, d with 3 mm; water c for 1 min", "zone d { output 4; rate 36 mm/h; efficiency 80 % }"));

    /// <summary>
    /// 1 mm at 18 mm/h takes 200 s, and 200 · 0.85 · 0.7 = 119. 0.5 mm at 60 · 10 / 90 mm/h, which has no end in decimals, takes 270 s, and 270 · 0.85 = 229.5.
    /// </summary>
    [Fact]
    public void ScaleAndTrimMultiplyAnAmountAndItIsRoundedOnceHalfUp() =>
        Assert.Equal(
            ["06:00:00 e 119 s", "06:01:59 f 230 s"],
            RunLines(
                Garden("zone e { output 5; rate 18 mm/h; trim 70 % }\nzone f { output 6; flow 10 L/min; area 90 m2}\n"
                    + "schedule s { on 2026-06-01; start at 06:00; scale 85 %; steps { water e with 1 mm; water f with 0.5 mm } }"),
                "2026-06-01",
                1).Select(line => string.Join(' ', line.Split(' ')[1], line.Split(' ')[3], line.Split(' ')[4], "s")));

    /// <summary>18 min in pieces of at most 6 min: three; b and c fill a part of the soak of a.</summary>
    [Fact]
    public void ACycleGoesRoundByRoundAndWaitsOnlyForWhatIsMissingOfTheSoak() =>
        Assert.Equal(
            [
                "06:00:00 a 360 s 1#1.1", "06:06:00 b 300 s 1#1.2", "06:26:00 a 360 s 1#2.1", "06:32:00 b 300 s 1#2.2",
                "06:52:00 a 360 s 1#3.1", "06:58:00 c 60 s 2",
            ],
            Steps("cycle 6 min soak 20 min { water a for 18 min; water b for 10 min }; water c for 1 min"));

    /// <summary>601 s in pieces of at most 300 s: three of 201, 200 and 200 s.</summary>
    [Fact]
    public void PiecesAreWholeSecondsTheLongerFirst() =>
        Assert.Equal(["06:00:00 a 201 s 1#1.1", "06:04:21 a 200 s 1#2.1", "06:08:41 a 200 s 1#3.1"], Steps("cycle 5 min soak 1 min { water a for 601 s }"));

    [Fact]
    public void AZoneInTwoLinesOfACycleSharesItsSoak() =>
        Assert.Equal(
            ["06:00:00 a 60 s 1#1.1", "06:11:00 a 60 s 1#1.2", "06:22:00 a 60 s 1#2.2"],
            Steps("cycle 1 min soak 10 min { water a for 1 min; water a for 2 min }"));

    [Fact]
    public void AChangeOverCountsTowardsTheSoak() =>
        Assert.Equal(
            ["06:00:00 d 60 s 1#1.1", "06:01:20 e 60 s 1#1.1", "06:02:40 d 60 s 1#2.1", "06:04:00 e 60 s 1#2.1"],
            Steps("cycle 1 min soak 1 min 40 s { water d, e for 2 min }",
                "supply tap { flow 30 L/min; change-over gap 20 s }\nzone d { output 4 }\nzone e { output 5 }"));

    /// <summary>The trim makes e half as long; both are split into the two pieces that d needs.</summary>
    [Fact]
    public void ZonesOnTogetherAreSplitAsOne() =>
        Assert.Equal(
            ["06:00:00 b 60 s 1#1.1", "06:00:00 e 30 s 1#1.1", "06:02:00 b 60 s 1#2.1", "06:02:00 e 30 s 1#2.1"],
            Steps("cycle 1 min soak 1 min { water b + e for 2 min }", "zone e { output 5; trim 50 % }"));

    [Fact]
    public void ACycleRunsASequenceOfWaterings() =>
        Assert.Equal(
            ["06:00:00 a 60 s 1#1.1.1", "06:01:00 b 60 s 1#1.1.2", "06:02:00 a 60 s 1#2.1.1", "06:03:00 b 60 s 1#2.1.2"],
            Steps("cycle 1 min soak 1 min { run round }", "sequence round { water a for 2 min; water b for 2 min }"));

    /// <summary>12 min at 50 % are 6 min, one piece: cycles are made after scaling.</summary>
    [Fact]
    public void CyclesAreMadeAfterScaling() =>
        Assert.Equal(
            ["2026-06-01 06:00:00 +01 a 360 s s 1#1.1", "2026-07-01 06:00:00 +01 a 360 s s 1#1.1", "2026-07-01 06:36:00 +01 a 360 s s 1#2.1"],
            RunLines(Garden(
                "scale year { jun 50 % ; jul 100 % }\n"
                    + "schedule s { on days 1 of month; start at 06:00; scale year; steps { cycle 6 min soak 30 min { water a for 12 min } } }"),
                "2026-06-01",
                31));

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
        var timetable = Timetable.Of(Read(Garden("schedule s { every day; start at 06:00; steps { water a, b for 10 min } }")),
            Horizon.DaysFrom(new LocalDate(2026, 6, 1), 3));
        var totals = new ZoneTotals(timetable.Site);
        foreach (var run in timetable.Runs()) totals.Add(run);
        // 6 L/min for 30 min is 180 L, on 20 m² 9 mm, since 1 L on 1 m² stands 1 mm deep.
        Assert.Equal([("a", 3L, 1800L, 180m, 9m), ("b", 3L, 1800L, null, null), ("c", 0L, 0L, null, (decimal?)null)],
            totals.ByZone().Select(total => (total.Zone.Name, total.Runs, total.Seconds, total.Litres, total.Millimetres)));
    }
}
