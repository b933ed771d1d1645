using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Calendars;

public class CivilDateTests
{
    private static readonly LocalDate Epoch = new(1970, 1, 1);

    /// <summary>NodaTime is the judge: every day of 400 years and more, and some far away.</summary>
    [Fact]
    public void DayNumbersAreThoseOfNodaTime()
    {
        for (var day = -150_000; day < 150_000; day++)
            AssertSameDay(day);
        for (var day = -4_371_000; day < 2_932_000; day += 997)
            AssertSameDay(day);
    }

    [Theory]
    [InlineData(1900, false)]
    [InlineData(2000, true)]
    [InlineData(2026, false)]
    [InlineData(2028, true)]
    [InlineData(2100, false)]
    public void LeapYearsFollowTheGregorianRule(int year, bool isLeap)
    {
        Assert.Equal(isLeap, CivilDate.IsLeapYear(year));
        Assert.Equal(isLeap ? 29 : 28, CivilDate.DaysInMonth(year, 2));
    }

    private static void AssertSameDay(int day)
    {
        var expected = Epoch.PlusDays(day);
        var date = CivilDate.FromDayNumber(day);
        Assert.Equal((expected.Year, expected.Month, expected.Day), (date.Year, date.Month, date.Day));
        Assert.Equal(day, date.DayNumber);
        Assert.Equal(day, CivilDate.DayNumberOf(expected));
        Assert.Equal((Weekdays)(1 << ((int)expected.DayOfWeek - 1)), CivilDate.WeekdayOf(day));
        Assert.Equal(CalendarSystem.Iso.GetDaysInMonth(expected.Year, expected.Month), CivilDate.DaysInMonth(date.Year, date.Month));
    }
}
