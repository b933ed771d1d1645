using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>Days, weeks, months and years of the calendar, each known by its first date, in days since 1970-01-01.</summary>
internal static class UsagePeriods
{
    private const int DaysInWeek = 7;

    /// <summary>The first date of the period that a date lies in.</summary>
    public static int StartOf(UsageAxis axis, int day)
    {
        if (axis == UsageAxis.Day) return day;
        if (axis == UsageAxis.Week) return day - CivilDate.DaysAfterMonday(day);
        var date = CivilDate.FromDayNumber(day);
        return CivilDate.DayNumberOf(date.Year, axis == UsageAxis.Month ? date.Month : 1, 1);
    }

    /// <summary>The first date after the period that begins on a date.</summary>
    public static int EndOf(UsageAxis axis, int start)
    {
        if (axis == UsageAxis.Day) return start + 1;
        if (axis == UsageAxis.Week) return start + DaysInWeek;
        var (year, month, _) = CivilDate.FromDayNumber(start);
        return axis == UsageAxis.Year || month == 12 ? CivilDate.DayNumberOf(year + 1, 1, 1) : CivilDate.DayNumberOf(year, month + 1, 1);
    }

    /// <summary>As people read it: <c>Apr 2026</c>, without its year where that was just said.</summary>
    public static string Say(UsageAxis axis, int start, bool hasYear)
    {
        var date = CivilDate.FromDayNumber(start);
        var year = hasYear ? string.Create(CultureInfo.InvariantCulture, $" {date.Year}") : "";
        return axis switch
        {
            UsageAxis.Day => hasYear ? SiteWords.Date(start) : SiteWords.Date(start)[..^5],
            UsageAxis.Week => string.Create(CultureInfo.InvariantCulture, $"{date.Day} {MonthOf(date)}{year}"),
            UsageAxis.Month => MonthOf(date) + year,
            _ => date.Year.ToString(CultureInfo.InvariantCulture),
        };
    }

    /// <summary>As programs read it: <c>2026-04</c>; a week by its Monday.</summary>
    public static string Write(UsageAxis axis, int start)
    {
        var date = CivilDate.FromDayNumber(start);
        return axis switch
        {
            UsageAxis.Year => string.Create(CultureInfo.InvariantCulture, $"{date.Year:D4}"),
            UsageAxis.Month => string.Create(CultureInfo.InvariantCulture, $"{date.Year:D4}-{date.Month:D2}"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{date.Year:D4}-{date.Month:D2}-{date.Day:D2}"),
        };
    }

    private static string MonthOf(CivilDate date) => Phrases.Month(date.Month)[..3];
}
