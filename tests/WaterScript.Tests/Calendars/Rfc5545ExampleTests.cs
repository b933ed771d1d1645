using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Calendars;

/// <summary>
/// The recurrence examples of RFC 5545, 3.8.5.3, that the language can say, each with the dates that stand there (times and
/// occurrences within a day left out); where the RFC's list goes on without end, as far as it is printed.
/// </summary>
public class Rfc5545ExampleTests
{
    private const Weekdays TuesdayAndThursday = Weekdays.Tuesday | Weekdays.Thursday;
    private const Weekdays MondayWednesdayFriday = Weekdays.Monday | Weekdays.Wednesday | Weekdays.Friday;

    [Fact]
    public void DailyForTenOccurrences() =>
        AssertAll("1997-09: 2 3 4 5 6 7 8 9 10 11", From("1997-09-02", "1997-09-11"));

    [Fact]
    public void EveryOtherDay() =>
        AssertFirst("1997-09: 2 4 6 8 10 12 14 16 18 20 22 24 26 28 30; 1997-10: 2 4", From("1997-09-02"), new IntervalDays(2, null));

    [Fact]
    public void EveryTenDaysFiveOccurrences() =>
        AssertFirst("1997-09: 2 12 22; 1997-10: 2 12", From("1997-09-02"), new IntervalDays(10, null));

    [Fact]
    public void EveryDayInJanuaryForThreeYears()
    {
        var days = string.Join(' ', Enumerable.Range(1, 31));
        AssertAll($"1998-01: {days}; 1999-01: {days}; 2000-01: {days}", From("1998-01-01", "2000-01-31"), new YearlyRange(new(1, 1), new(1, 0)));
    }

    [Fact]
    public void WeeklyUntilTheDayBeforeChristmas() =>
        AssertAll(
            "1997-09: 2 9 16 23 30; 1997-10: 7 14 21 28; 1997-11: 4 11 18 25; 1997-12: 2 9 16 23",
            From("1997-09-02", "1997-12-23"),
            new WeekdayDays(Weekdays.Tuesday));

    [Fact]
    public void EveryOtherWeek() =>
        AssertFirst(
            "1997-09: 2 16 30; 1997-10: 14 28; 1997-11: 11 25; 1997-12: 9 23; 1998-01: 6 20; 1998-02: 3 17",
            From("1997-09-02"),
            new IntervalDays(14, Weekdays.Tuesday));

    [Fact]
    public void WeeklyOnTuesdayAndThursdayForFiveWeeks() =>
        AssertAll("1997-09: 2 4 9 11 16 18 23 25 30; 1997-10: 2", From("1997-09-02", "1997-10-06"), new WeekdayDays(TuesdayAndThursday));

    [Fact]
    public void EveryOtherWeekOnMondayWednesdayAndFriday() =>
        AssertAll(
            "1997-09: 1 3 5 15 17 19 29; 1997-10: 1 3 13 15 17 27 29 31; 1997-11: 10 12 14 24 26 28; 1997-12: 8 10 12 22",
            From("1997-09-01", "1997-12-23"),
            new IntervalDays(14, MondayWednesdayFriday));

    [Fact]
    public void EveryOtherWeekOnTuesdayAndThursday() =>
        AssertFirst("1997-09: 2 4 16 18 30; 1997-10: 2 14 16", From("1997-09-02"), new IntervalDays(14, TuesdayAndThursday));

    [Fact]
    public void MonthlyOnTheFirstFriday() =>
        AssertFirst(
            "1997-09: 5; 1997-10: 3; 1997-11: 7; 1997-12: 5; 1998-01: 2; 1998-02: 6; 1998-03: 6; 1998-04: 3; 1998-05: 1; 1998-06: 5",
            From("1997-09-05"),
            new NthWeekday(1, IsoDayOfWeek.Friday));

    [Fact]
    public void MonthlyOnTheSecondAndTheFifteenth() =>
        AssertFirst(
            "1997-09: 2 15; 1997-10: 2 15; 1997-11: 2 15; 1997-12: 2 15; 1998-01: 2 15", From("1997-09-02"), new MonthDays([2, 15]));

    [Fact]
    public void MonthlyOnTheFirstAndTheLastDay() =>
        AssertFirst(
            "1997-09: 30; 1997-10: 1 31; 1997-11: 1 30; 1997-12: 1 31; 1998-01: 1 31; 1998-02: 1",
            From("1997-09-30"),
            new MonthDays([1]),
            new LastDayOfMonth());

    [Fact]
    public void YearlyInJuneAndJuly() =>
        AssertFirst(
            "1997-06: 10; 1997-07: 10; 1998-06: 10; 1998-07: 10; 1999-06: 10; 1999-07: 10; 2000-06: 10; 2000-07: 10; 2001-06: 10; 2001-07: 10",
            From("1997-06-10"),
            new YearlyDay(new(6, 10)),
            new YearlyDay(new(7, 10)));

    [Fact]
    public void EveryThursdayInMarch() =>
        AssertDates(
            "1997-03: 13 20 27; 1998-03: 5 12 19 26; 1999-03: 4 11 18 25",
            DayPattern.Of([new WeekdayDays(Weekdays.Thursday)], new(new YearlyRange(new(3, 1), new(3, 31))), [], Date("1997-03-13")));

    [Fact]
    public void EveryThursdayInJuneJulyAndAugust() =>
        AssertDates(
            "1997-06: 5 12 19 26; 1997-07: 3 10 17 24 31; 1997-08: 7 14 21 28; "
            + "1998-06: 4 11 18 25; 1998-07: 2 9 16 23 30; 1998-08: 6 13 20 27; "
            + "1999-06: 3 10 17 24; 1999-07: 1 8 15 22 29; 1999-08: 5 12 19 26",
            DayPattern.Of([new WeekdayDays(Weekdays.Thursday)], new(new YearlyRange(new(6, 1), new(8, 31))), [], Date("1997-06-05")));

    [Fact]
    public void EveryFridayThe13th() =>
        AssertDates(
            "1998-02: 13; 1998-03: 13; 1998-11: 13; 1999-08: 13; 2000-10: 13",
            DayPattern.Of([new WeekdayDays(Weekdays.Friday)], null, [], Date("1997-09-03")).NarrowedTo([new MonthDays([13])]));

    [Fact]
    public void TheFirstSaturdayThatFollowsTheFirstSundayOfTheMonth() =>
        AssertDates(
            "1997-09: 13; 1997-10: 11; 1997-11: 8; 1997-12: 13; 1998-01: 10; 1998-02: 7; 1998-03: 7; 1998-04: 11; 1998-05: 9; 1998-06: 13",
            DayPattern.Of([new WeekdayDays(Weekdays.Saturday)], null, [], Date("1997-09-13"))
                .NarrowedTo([new MonthDays([7, 8, 9, 10, 11, 12, 13])]));

    [Fact]
    public void TheSpanOfAWeekBeginsOnTheAnchor() =>
        AssertFirst("1997-08: 5 10 19 24", From("1997-08-05"), new IntervalDays(14, Weekdays.Tuesday | Weekdays.Sunday));

    /// <summary>The same rule with weeks from Sunday: the Sunday before is the anchor, and nothing is due before DTSTART.</summary>
    [Fact]
    public void AnotherAnchorGivesOtherDates() =>
        AssertDates(
            "1997-08: 5 17 19 31",
            DayPattern.Of([new IntervalDays(14, Weekdays.Tuesday | Weekdays.Sunday)], From("1997-08-03"), [], Date("1997-08-05")));

    [Fact]
    public void AnInvalidDateIsIgnored() =>
        AssertFirst("2007-01: 15 30; 2007-02: 15; 2007-03: 15 30", From("2007-01-15"), new MonthDays([15, 30]));

    private static Season From(string first, string? last = null) =>
        new(new DateRange(Date(first), last is null ? LocalDate.MaxIsoValue : Date(last)));

    private static DayPattern Pattern(Season season, ImmutableArray<DaySet> days) =>
        DayPattern.Of(days, season, [], ((DateRange)season.Span).First);

    private static void AssertFirst(string dates, Season season, params DaySet[] days) => AssertDates(dates, Pattern(season, [.. days]));

    private static void AssertAll(string dates, Season season, params DaySet[] days)
    {
        var pattern = Pattern(season, [.. days]);
        AssertDates(dates, pattern);
        Assert.Equal(Days(dates).Count, pattern.DueDays(0, CivilDate.DayNumberOf(2020, 1, 1)).Count());
    }

    private static void AssertDates(string dates, DayPattern pattern)
    {
        var expected = Days(dates);
        Assert.Equal(expected, pattern.DueDays(0, expected[^1] + 1));
    }

    private static List<int> Days(string dates) =>
    [
        .. from month in dates.Split("; ")
           from day in month[9..].Split(' ')
           select CivilDate.DayNumberOf(Date($"{month[..7]}-01").PlusDays(int.Parse(day, CultureInfo.InvariantCulture) - 1)),
    ];

    private static LocalDate Date(string date) => NodaTime.Text.LocalDatePattern.Iso.Parse(date).Value;
}
