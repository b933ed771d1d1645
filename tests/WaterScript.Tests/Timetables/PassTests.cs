using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Timetables;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Timetables;

/// <summary>Starts, repeats and clock changes; every expected line is worked out by hand.</summary>
public class PassTests
{
    [Fact]
    public void StartsAreReadOnTheWallClockAndRepeatsInElapsedTime()
    {
        // Europe/Lisbon goes from 01:00 to 02:00 on 29 March 2026 (IANA time zone database).
        var garden = Garden("""
            schedule s {
              every day
              start at 00:30
              repeat every 1 h for 3 passes
              steps { water a for 1 min }
            }
            """);
        Assert.Equal(
            ["2026-03-29 00:30:00 +00", "2026-03-29 02:30:00 +01", "2026-03-29 03:30:00 +01"],
            PassLines(garden, "2026-03-29", 1));
    }

    [Fact]
    public void ASkippedTimeIsReadWithTheOffsetBeforeTheChange() =>
        Assert.Equal(["2026-03-29 02:30:00 +01"], PassLines(Garden("schedule s { every day; start at 01:30; steps { water a for 1 min } }"), "2026-03-29", 1));

    [Fact]
    public void ADoubledTimeIsTheFirstOfTheTwo() =>
        Assert.Equal(["2026-10-25 01:30:00 +01"], PassLines(Garden("schedule s { every day; start at 01:30; steps { water a for 1 min } }"), "2026-10-25", 1));

    [Fact]
    public void ARunOverAClockChangeKeepsItsLength() =>
        Assert.Equal(
            ["2026-03-29 00:50:00 +00 a 3600 s s 1", "2026-03-29 02:50:00 +01 b 3600 s s 1"],
            RunLines(Garden("schedule s { on 2026-03-29; start at 00:50; steps { water a, b for 1 h } }"), "2026-03-29", 1));

    [Fact]
    public void FinishByCountsBackInElapsedTime()
    {
        // Two passes 90 min apart of 40 min and a pause of 5 min: 2 h 15 min before 03:00 (+01), over the change.
        var garden = Garden("""
            schedule s {
              on sun
              finish by 03:00
              repeat every 90 min for 2 passes
              steps { water a, b for 20 min; pause 5 min }
            }
            """);
        Assert.Equal(["2026-03-28 23:45:00 +00", "2026-03-29 02:15:00 +01"], PassLines(garden, "2026-03-28", 2));
    }

    [Fact]
    public void FinishByBelongsToTheDateItFinishes() =>
        Assert.Equal(
            ["2026-06-09 23:00:00 +01"],
            PassLines(Garden("schedule s { on 2026-06-10; finish by 01:00; steps { water a for 2 h } }"), "2026-06-09", 1));

    [Fact]
    public void NothingRunsBeforeTheEffectiveDate() =>
        Assert.Equal(
            ["2026-06-10 23:00:00 +01"],
            PassLines(Garden("schedule s { every day; finish by 01:00; steps { water a for 2 h } }", effective: "2026-06-10"), "2026-06-09", 2));

    [Fact]
    public void RepeatUntilIncludesAPassAtItsEnd() =>
        Assert.Equal(
            ["2026-06-01 22:00:00 +01", "2026-06-01 23:00:00 +01", "2026-06-02 00:00:00 +01"],
            PassLines(Garden("schedule s { on 2026-06-01; start at 22:00; repeat every 1 h until 24:00; steps { water a for 1 min } }"), "2026-06-01", 3));

    [Fact]
    public void RepeatUntilMayReachIntoTheNextDay() =>
        Assert.Equal(
            ["2026-06-01 23:00:00 +01", "2026-06-02 01:30:00 +01", "2026-06-02 04:00:00 +01"],
            PassLines(Garden("schedule s { on 2026-06-01; start at 23:00; repeat every 150 min until 04:00 next day; steps { water a for 1 min } }"),
                "2026-06-01", 3));

    [Fact]
    public void EachStartHasItsOwnPassesAndItsOwnDays() =>
        Assert.Equal(
            ["2026-06-01 06:00:00 +01", "2026-06-01 20:00:00 +01", "2026-06-02 06:00:00 +01"],
            PassLines(Garden("schedule s { on mon, tue; start at 06:00; start at 20:00 on mon, wed; steps { water a for 1 min } }"), "2026-06-01", 3));

    [Fact]
    public void EqualMomentsAreOne() =>
        Assert.Equal(
            ["2026-06-01 06:00:00 +01"],
            PassLines(Garden("schedule s { on mon; start at 06:00, 06:00; finish by 06:01; steps { water a for 1 min } }"), "2026-06-01", 3));

    [Fact]
    public void StartAfterFollowsTheLastPassOfTheSameDate()
    {
        var garden = Garden("""
            schedule first { on mon, wed; start at 23:00, 23:50; steps { water a for 30 min; pause 5 min } }
            schedule second { start after first + 10 min; steps { water b for 1 min } }
            schedule third { on wed; start after second; steps { water c for 1 min } }
            """);
        Assert.Equal(
            [
                "2026-06-01 23:00:00 +01 a 1800 s first 1",
                "2026-06-01 23:50:00 +01 a 1800 s first 1",
                "2026-06-02 00:35:00 +01 b 60 s second 1",
                "2026-06-03 23:00:00 +01 a 1800 s first 1",
                "2026-06-03 23:50:00 +01 a 1800 s first 1",
                "2026-06-04 00:35:00 +01 b 60 s second 1",
                "2026-06-04 00:36:00 +01 c 60 s third 1",
            ],
            RunLines(garden, "2026-06-01", 4));
    }

    [Fact]
    public void AGapAtMidnightStartsWithTheDay() =>
        // America/Sao_Paulo went from 00:00 to 01:00 on 4 November 2018 (IANA time zone database).
        Assert.Equal(
            ["2018-11-04 01:00:00 -02", "2018-11-04 01:30:00 -02"],
            PassLines(Garden("schedule s { on 2018-11-04; start at 00:00, 00:30; steps { water a for 1 min } }", "America/Sao_Paulo", "2018-01-01"),
                "2018-11-04", 1));

    [Fact]
    public void AChangeOfHalfAnHourIsFollowed() =>
        // Australia/Lord_Howe goes from 02:00 to 02:30 on 4 October 2026 (IANA time zone database).
        Assert.Equal(
            ["2026-10-04 02:45:00 +11"],
            PassLines(Garden("schedule s { on 2026-10-04; start at 02:15; steps { water a for 1 min } }", "Australia/Lord_Howe"), "2026-10-04", 1));

    [Fact]
    public void AnOffsetOfThreeQuartersOfAnHourIsKept() =>
        Assert.Equal(
            ["2026-10-04 06:00:00 +05:45"],
            PassLines(Garden("schedule s { on 2026-10-04; start at 06:00; steps { water a for 1 min } }", "Asia/Kathmandu"), "2026-10-04", 1));

    /// <summary>Passes from 22:00 on, 7 h apart: the fifth comes 28 h later. That other schedules are done within their date takes nothing from it.</summary>
    [Fact]
    public void APassMayBelongToADateTwoDaysBeforeTheHorizon() =>
        Assert.Equal(
            ["2026-06-03 02:00:00 +01", "2026-06-03 06:00:00 +01"],
            PassLines(Garden("""
                schedule long { on 2026-06-01; start at 22:00; repeat every 7 h for 5 passes; steps { water a for 1 min } }
                schedule short { on 2026-06-03; start at 06:00; steps { water b for 1 min } }
                """), "2026-06-03", 1));

    [Fact]
    public void OutsideACycleNothingSoaks() =>
        Assert.Equal([0L], Timetable.Of(Read(Garden("schedule s { on 2026-06-01; start at 06:00; steps { water a for 10 min } }")),
            Horizon.DaysFrom(new(2026, 6, 1), 1)).Runs().Select(run => run.Soak));

    /// <summary>A pass of six hours that finishes at 02:00 starts on the evening before: until it has come, that date is not done.</summary>
    [Fact]
    public void ADateIsDoneOnceItsPassesHaveCome()
    {
        var site = Read(Garden("schedule s { every day; finish by 02:00; steps { water a for 6 h } }", "Etc/UTC"));
        var budget = new WorkBudget(1_000_000);
        var passes = Timetable.Of(site, Horizon.DaysFrom(new(2026, 6, 1), 9), budget).DuePasses()
            .Select(pass => (Start: pass.Start / ZoneClock.SecondsInDay, Reached: budget.ReachedDay)).ToList();
        Assert.Equal(9, passes.Count);
        Assert.All(passes, pass => Assert.InRange(pass.Reached, pass.Start - 3, pass.Start));
    }

    [Fact]
    public void WhatStartsAfterAnotherMayComeDaysLater() =>
        Assert.Equal(
            ["2026-06-05 00:01:00 +01"],
            PassLines(Garden("""
                schedule first { on 2026-06-01; start at 06:00; steps { water a for 1 min } }
                schedule second { start after first + 90 h; steps { water b for 1 min } }
                """), "2026-06-05", 1));

    [Fact]
    public void OnePassIsThatOfItsDate()
    {
        var site = Read(Garden("schedule s { every day; start at 06:00; steps { water a for 1 min } }"));
        var pass = Timetable.OfOnePass(site, site.Schedules[0], new(2026, 6, 1, 22, 0));
        Assert.Equal(Horizon.DaysFrom(new(2026, 6, 1), 1), pass.Horizon);
        Assert.Equal("2026-06-01 22:00:00 +01 a 60 s s 1", Assert.Single(RunLines(pass)));
    }

    /// <summary>A pass every 5 s is 17,280 in a day: 18 such schedules have 311,040.</summary>
    [Fact]
    public void PassesOfADateThatAreMoreThanAreHeldUseTheBudgetUp()
    {
        var site = Read(Garden(string.Concat(Enumerable.Range(1, 18).Select(number =>
            $"schedule s{number} {{ on 2026-06-01; start at 00:00; repeat every 5 s until 24:00; steps {{ water a for 1 s }} }}\n"))));
        var budget = new WorkBudget(1_000_000_000);
        Assert.Throws<WorkUsedUpException>(() => Timetable.Of(site, Horizon.DaysFrom(new(2026, 6, 1), 1), budget).DuePasses().Count());
    }
}
