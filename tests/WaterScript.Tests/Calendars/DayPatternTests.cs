using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Calendars;

public class DayPatternTests
{
    private static readonly LocalDate Effective = new(2026, 1, 1);

    [Theory]
    [InlineData(2025, 186, 179)]
    [InlineData(2026, 186, 179)]
    [InlineData(2028, 187, 179)]
    public void AYearHasMoreOddDatesThanEvenOnes(int year, int odd, int even)
    {
        Assert.Equal(odd, CountIn(year, [new OddEvenDays(true)]));
        Assert.Equal(even, CountIn(year, [new OddEvenDays(false)]));
    }

    [Theory]
    [InlineData(2025)]
    [InlineData(2028)]
    public void OddAndEvenDatesAreAsManyWithoutThe31stsAnd29February(int year) =>
        Assert.Equal(179, CountIn(year, [new OddEvenDays(true)], except: [new MonthDays([31]), new YearlyDay(new(2, 29))]));

    [Fact]
    public void AnEmptyUnionIsEveryDay() => Assert.Equal(365, CountIn(2026, []));

    [Fact]
    public void NothingIsDueBeforeTheFirstDate()
    {
        var pattern = Pattern([]);
        Assert.False(pattern.IsDue(Day(2025, 12, 31)));
        Assert.True(pattern.IsDue(Day(2026, 1, 1)));
        Assert.Equal(Day(2026, 1, 1), pattern.NextDue(int.MinValue / 1000, Day(2027, 1, 1)));
    }

    [Fact]
    public void EveryFiveDaysCountsFromTheFirstDate() =>
        AssertDates(Pattern([new IntervalDays(5, null)]), "2026-01-01 2026-01-06 2026-01-11 2026-01-16 2026-01-21", until: new(2026, 1, 26));

    [Fact]
    public void EveryFiveDaysCountsFromADatedSeason() =>
        AssertDates(
            Pattern([new IntervalDays(5, null)], new Season(new DateRange(new(2026, 3, 30), new(2026, 4, 11)))),
            "2026-03-30 2026-04-04 2026-04-09");

    /// <summary>Fridays of the seven days from Fri 9 January, and of every second such week; nothing on 2 January.</summary>
    [Fact]
    public void AnAnchoredExceptionCountsFromItsOwnDate() =>
        AssertDates(
            Pattern([new WeekdayDays(Weekdays.Friday)], except: [new IntervalDays(14, Weekdays.Friday) { Anchor = new(2026, 1, 9) }]),
            "2026-01-02 2026-01-16 2026-01-30 2026-02-13",
            until: new(2026, 2, 20));

    [Fact]
    public void TheCountOfADatedSeasonGoesOnFromBeforeTheFirstDate() =>
        AssertDates(
            Pattern([new IntervalDays(5, null)], new Season(new DateRange(new(2025, 12, 30), new(2026, 1, 15)))),
            "2026-01-04 2026-01-09 2026-01-14");

    [Fact]
    public void AYearlySeasonCountsAnewFromItsOwnFirstDay()
    {
        var season = new Season(new YearlyRange(new(12, 30), new(1, 6)));
        AssertDates(
            Pattern([new IntervalDays(3, null)], season),
            "2026-01-02 2026-01-05 2026-12-30 2027-01-02 2027-01-05 2027-12-30 2028-01-02 2028-01-05",
            until: new(2028, 3, 1));
    }

    [Fact]
    public void AYearlySpanCountsAnewWhereTheNextBegins()
    {
        var season = new Season(new YearlySpan(new(3, 1), 366));
        var due = Dates(Pattern([new IntervalDays(300, null)], season), Effective, new(2029, 1, 1));
        Assert.Equal(["2026-03-01", "2026-12-26", "2027-03-01", "2027-12-26", "2028-03-01", "2028-12-26"], due);
    }

    [Fact]
    public void ASpanOfThreeWeeksEndsOnItsTwentyFirstDay() =>
        AssertDates(
            Pattern([new IntervalDays(10, null)], new Season(new YearlySpan(new(12, 20), 21))),
            "2026-01-09 2026-12-20 2026-12-30 2027-01-09 2027-12-20 2027-12-30",
            until: new(2028, 1, 1));

    [Fact]
    public void WeeksAreSpansOfSevenDaysFromTheAnchor()
    {
        // 2026-01-01 is a Thursday: the first span is Thu 1 to Wed 7 January, the next that counts Thu 15 to Wed 21.
        var pattern = Pattern([new IntervalDays(14, Weekdays.Tuesday | Weekdays.Thursday)]);
        AssertDates(pattern, "2026-01-01 2026-01-06 2026-01-15 2026-01-20 2026-01-29", until: new(2026, 2, 1));
    }

    [Fact]
    public void ExceptNeverMovesTheCount()
    {
        var pattern = Pattern([new IntervalDays(3, null)], except: [new DateRange(new(2026, 1, 4), new(2026, 1, 8))]);
        AssertDates(pattern, "2026-01-01 2026-01-10 2026-01-13", until: new(2026, 1, 15));
    }

    [Fact]
    public void AnIntervalTakenAwayCountsFromTheSeasonToo()
    {
        var season = new Season(new YearlyRange(new(4, 2), new(4, 9)));
        var pattern = Pattern([new WeekdayDays(Weekdays.All)], season, except: [new IntervalDays(2, null)]);
        AssertDates(
            pattern,
            "2026-04-03 2026-04-05 2026-04-07 2026-04-09 2027-04-03 2027-04-05 2027-04-07 2027-04-09",
            until: new(2028, 1, 1));
    }

    [Fact]
    public void WeeksTakenAwayLeaveTheOtherWeeks()
    {
        var pattern = Pattern([new WeekdayDays(Weekdays.Friday)], except: [new IntervalDays(14, Weekdays.Friday)]);
        AssertDates(pattern, "2026-01-09 2026-01-23", until: new(2026, 2, 1));
    }

    [Fact]
    public void DaysOfAStartNarrowAndDoNotReplace()
    {
        var pattern = Pattern([new WeekdayDays(Weekdays.Monday | Weekdays.Friday)]);
        AssertDates(pattern.NarrowedTo([new OddEvenDays(true), new LastDayOfMonth()]), "2026-01-05 2026-01-09 2026-01-19 2026-01-23", until: new(2026, 2, 1));
        Assert.Same(pattern, pattern.NarrowedTo([]));
    }

    [Fact]
    public void TheTwentyNinthOfFebruaryIsTheFirstOfMarchAsAFirstDay() =>
        AssertDates(
            Pattern([], new Season(new YearlyRange(new(2, 29), new(3, 2)))),
            "2026-03-01 2026-03-02 2027-03-01 2027-03-02 2028-02-29 2028-03-01 2028-03-02",
            until: new(2029, 1, 1));

    [Fact]
    public void TheTwentyNinthOfFebruaryIsTheTwentyEighthAsALastDay() =>
        AssertDates(
            Pattern([], new Season(new YearlyRange(new(2, 27), new(2, 29)))),
            "2026-02-27 2026-02-28 2027-02-27 2027-02-28 2028-02-27 2028-02-28 2028-02-29",
            until: new(2029, 1, 1));

    [Fact]
    public void From29FebruaryTo29FebruaryIsOneDayInLeapYearsAndNoneElse() =>
        AssertDates(Pattern([], new Season(new YearlyRange(new(2, 29), new(2, 29)))), "2028-02-29 2032-02-29", until: new(2033, 1, 1));

    [Fact]
    public void TheTwentyNinthOfFebruaryIsNoDayInACommonYear() =>
        AssertDates(Pattern([new YearlyDay(new(2, 29))]), "2028-02-29 2032-02-29", until: new(2033, 1, 1));

    [Fact]
    public void TheLastOfFebruaryIsADayOfEveryYear()
    {
        AssertDates(Pattern([new YearlyDay(new(2, 0))]), "2026-02-28 2027-02-28 2028-02-29", until: new(2029, 1, 1));
        AssertDates(
            Pattern([], new Season(new YearlyRange(new(2, 28), new(2, 0)))), "2026-02-28 2027-02-28 2028-02-28 2028-02-29", until: new(2029, 1, 1));
    }

    [Fact]
    public void MonthsWithoutA31stAreSkipped() =>
        AssertDates(
            Pattern([new MonthDays([31])]),
            "2026-01-31 2026-03-31 2026-05-31 2026-07-31 2026-08-31 2026-10-31 2026-12-31",
            until: new(2027, 1, 1));

    [Fact]
    public void ARangeOverNewYearHoldsOnBothSides()
    {
        var pattern = Pattern([new YearlyRange(new(10, 20), new(4, 5))]);
        Assert.True(pattern.IsDue(Day(2026, 4, 5)));
        Assert.False(pattern.IsDue(Day(2026, 4, 6)));
        Assert.False(pattern.IsDue(Day(2026, 10, 19)));
        Assert.True(pattern.IsDue(Day(2026, 10, 20)));
        Assert.True(pattern.IsDue(Day(2027, 1, 1)));
    }

    [Fact]
    public void ASeasonWithoutAnEndGoesOn()
    {
        var pattern = Pattern([new IntervalDays(2, null)], new Season(new DateRange(new(2026, 6, 1), LocalDate.MaxIsoValue)));
        Assert.Equal(Day(2026, 6, 1), pattern.NextDue(0, int.MaxValue));
        Assert.Equal(Day(2300, 6, 1), pattern.NextDue(Day(2300, 6, 1), Day(2300, 6, 3)));
    }

    [Fact]
    public void TheSearchForTheNextDayEndsWhereItIsToldTo()
    {
        var never = Pattern([new DateRange(new(2020, 1, 1), new(2020, 1, 2))]);
        Assert.Null(never.NextDue(0, Day(2426, 1, 1)));
        var once = Pattern([new DateRange(new(2026, 5, 1), new(2026, 5, 1))]);
        Assert.Null(once.NextDue(0, Day(2026, 5, 1)));
        Assert.Equal(Day(2026, 5, 1), once.NextDue(0, Day(2026, 5, 2)));
    }

    [Fact]
    public void APeriodLongerThanTheCalendarIsDueOnce() =>
        Assert.Equal(["2026-01-01"], Dates(Pattern([new IntervalDays(int.MaxValue - 5, null)]), Effective, new(2600, 1, 1)));

    [Fact]
    public void BitsOverAStretchAreTheDaysAskedForOneByOne()
    {
        var pattern = Pattern(
            [new NthWeekday(-1, IsoDayOfWeek.Monday), new IntervalDays(21, Weekdays.Sunday), new YearlyDay(new(2, 29))],
            new Season(new YearlyRange(new(9, 15), new(4, 30))),
            [new OddEvenDays(true)]);
        var first = Day(2025, 6, 1);
        var bits = pattern.Over(first, CivilDate.DaysInCycle);
        var due = Enumerable.Range(first, bits.Length).Where(pattern.IsDue).ToList();
        Assert.Equal(due, Enumerable.Range(first, bits.Length).Where(bits.Contains));
        Assert.Equal(due, pattern.DueDays(first, bits.End));
        Assert.Equal(due.Count, bits.Count);
    }

    /// <summary>The next span begins on the day after the last one ends: 366 days from each 1 March are all days.</summary>
    [Fact]
    public void AYearlySpanOfAWholeYearLeavesNoDayOut()
    {
        var due = Pattern([], new Season(new YearlySpan(new(3, 1), 366))).DueDays(Day(2026, 1, 1), Day(2029, 1, 1));
        Assert.Equal(Enumerable.Range(Day(2026, 1, 1), (3 * 365) + 1), due);
    }

    /// <summary>365 is odd: every other day counted on from 1 March 2026 would be 2 March 2027, which the count from 1 March 2027 leaves out.</summary>
    [Fact]
    public void TheCountOfAYearlySpanEndsWhereTheNextBegins() => Assert.Equal(
        ["2027-02-28", "2027-03-01", "2027-03-03", "2027-03-05"],
        Dates(Pattern([new IntervalDays(2, null)], new Season(new YearlySpan(new(3, 1), 366))), new(2027, 2, 27), new(2027, 3, 6)));

    [Fact]
    public void DayNumber0IsADayLikeAnyOther() => Assert.True(DayPattern.Of([], null, [], new(1970, 1, 1)).IsDue(0));

    /// <summary>Wherever a stretch begins and ends, its days are those of the calendar as a whole: nothing is lost at its first or last day.</summary>
    [Fact]
    public void AnyStretchHasTheDaysOfTheCalendar()
    {
        DayPattern[] patterns =
        [
            Pattern([new MonthDays([1, 31])]),
            Pattern([new LastDayOfMonth(), new NthWeekday(1, IsoDayOfWeek.Sunday)]),
            Pattern([new IntervalDays(3, null)], new Season(new YearlyRange(new(2, 1), new(3, 15)))),
            Pattern([], new Season(new YearlySpan(new(3, 1), 20))),
        ];
        foreach (var pattern in patterns)
        {
            for (var first = Day(2026, 1, 20); first < Day(2026, 3, 10); first++)
            {
                for (var length = 1; length <= 45; length++)
                {
                    var bits = pattern.Over(first, length);
                    Assert.True(Enumerable.Range(first, length).All(day => bits.Contains(day) == pattern.IsDue(day)));
                    Assert.Equal((false, false), (bits.Contains(first - 1), bits.Contains(first + length)));
                }
            }
        }
    }

    [Fact]
    public void APatternThatCountsNoDaysRepeatsAfter400Years()
    {
        var pattern = Pattern([new NthWeekday(3, IsoDayOfWeek.Tuesday), new LastDayOfMonth(), new WeekdayDays(Weekdays.Sunday)]);
        var first = CivilDate.DayNumberOf(Effective);
        var now = pattern.DueDays(first, first + CivilDate.DaysInCycle).Select(day => day + CivilDate.DaysInCycle);
        Assert.Equal(now, pattern.DueDays(first + CivilDate.DaysInCycle, first + (2 * CivilDate.DaysInCycle)));
    }

    private static DayPattern Pattern(ImmutableArray<DaySet> days, Season? season = null, ImmutableArray<DaySet>? except = null) =>
        DayPattern.Of(days, season, except ?? [], Effective);

    private static int CountIn(int year, ImmutableArray<DaySet> days, ImmutableArray<DaySet>? except = null) =>
        DayPattern.Of(days, null, except ?? [], new(2000, 1, 1)).Over(Day(year, 1, 1), Day(year + 1, 1, 1) - Day(year, 1, 1)).Count;

    private static int Day(int year, int month, int day) => CivilDate.DayNumberOf(year, month, day);

    private static void AssertDates(DayPattern pattern, string dates, LocalDate? until = null) =>
        Assert.Equal(dates.Split(' '), Dates(pattern, new(2020, 1, 1), until ?? new(2027, 1, 1)));

    private static IEnumerable<string> Dates(DayPattern pattern, LocalDate from, LocalDate until) =>
        pattern.DueDays(CivilDate.DayNumberOf(from), CivilDate.DayNumberOf(until))
            .Select(day => CivilDate.FromDayNumber(day).ToLocalDate().ToString("uuuu-MM-dd", null));
}
