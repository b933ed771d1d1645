using NodaTime;
using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>
/// A date of the proleptic Gregorian calendar, and its day number: days since 1970-01-01, negative before it. Day numbers
/// are what the compiler counts in; a date is only made where somebody reads it.
/// </summary>
/// <remarks>
/// The arithmetic is that of Howard Hinnant, "chrono-compatible low-level date algorithms" (public domain; from memory):
/// years begin on 1 March, so that the day that comes and goes is the last one, and 400 of them are always 146,097 days.
/// </remarks>
/// <param name="Year">-9998 to 9999.</param>
/// <param name="Month">1 to 12.</param>
/// <param name="Day">1 to the length of the month.</param>
internal readonly record struct CivilDate(int Year, int Month, int Day)
{
    /// <summary>Days in 400 years, after which the calendar repeats; a multiple of seven, so the weekdays do too.</summary>
    public const int DaysInCycle = 146_097;

    private const int YearsInCycle = 400;

    /// <summary>Days from 1 March of the year 0 to 1 January 1970.</summary>
    private const int CycleToEpoch = 719_468;

    /// <summary>1 January 1970 was a Thursday, three days after a Monday.</summary>
    private const int EpochAfterMonday = 3;

    /// <summary>Days since 1970-01-01.</summary>
    public int DayNumber => DayNumberOf(Year, Month, Day);

    /// <summary>The date with a day number.</summary>
    public static CivilDate FromDayNumber(int dayNumber)
    {
        var shifted = dayNumber + CycleToEpoch;
        var cycle = FloorDivide(shifted, DaysInCycle);
        var dayOfCycle = shifted - (cycle * DaysInCycle);
        var yearOfCycle = (dayOfCycle - (dayOfCycle / 1_460) + (dayOfCycle / 36_524) - (dayOfCycle / 146_096)) / 365;
        var dayOfYear = dayOfCycle - ((365 * yearOfCycle) + (yearOfCycle / 4) - (yearOfCycle / 100));
        var monthFromMarch = ((5 * dayOfYear) + 2) / 153;
        var day = dayOfYear - (((153 * monthFromMarch) + 2) / 5) + 1;
        var month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
        var year = yearOfCycle + (cycle * YearsInCycle) + (month <= 2 ? 1 : 0);
        return new(year, month, day);
    }

    /// <summary>The day number of a date; a day past the end of its month runs on into the next.</summary>
    public static int DayNumberOf(int year, int month, int day)
    {
        var yearFromMarch = month <= 2 ? year - 1 : year;
        var cycle = FloorDivide(yearFromMarch, YearsInCycle);
        var yearOfCycle = yearFromMarch - (cycle * YearsInCycle);
        var monthFromMarch = month > 2 ? month - 3 : month + 9;
        var dayOfYear = (((153 * monthFromMarch) + 2) / 5) + day - 1;
        var dayOfCycle = (yearOfCycle * 365) + (yearOfCycle / 4) - (yearOfCycle / 100) + dayOfYear;
        return (cycle * DaysInCycle) + dayOfCycle - CycleToEpoch;
    }

    /// <summary>The day number of a date of the ISO calendar.</summary>
    public static int DayNumberOf(LocalDate date) => DayNumberOf(date.Year, date.Month, date.Day);

    /// <summary>The same date as NodaTime writes it.</summary>
    public LocalDate ToLocalDate() => new(Year, Month, Day);

    /// <summary>Whether a year has a 29 February.</summary>
    public static bool IsLeapYear(int year) => year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);

    /// <summary>28 to 31.</summary>
    public static int DaysInMonth(int year, int month) => month switch
    {
        2 => IsLeapYear(year) ? 29 : 28,
        4 or 6 or 9 or 11 => 30,
        _ => 31,
    };

    /// <summary>The weekday of a day number: a set of one.</summary>
    public static Weekdays WeekdayOf(int dayNumber) => (Weekdays)(1 << DaysAfterMonday(dayNumber));

    /// <summary>Days since the last Monday, 0 for a Monday.</summary>
    public static int DaysAfterMonday(int dayNumber)
    {
        var remainder = (dayNumber + EpochAfterMonday) % 7;
        return remainder < 0 ? remainder + 7 : remainder;
    }

    private static int FloorDivide(int dividend, int divisor) =>
        (dividend >= 0 ? dividend : dividend - divisor + 1) / divisor;
}
