using NodaTime;
using WaterScript.Model;

namespace WaterScript.Tests.Simulation;

/// <summary>Which dates a day set holds, asked one date at a time and worked out the slow way.</summary>
internal static class ReferenceDays
{
    /// <summary>Whether a schedule's own days, season and exceptions let it run on a date.</summary>
    public static bool IsDue(Site site, Schedule schedule, LocalDate date)
    {
        if (date < site.Effective) return false;
        if (schedule.Season is { } season && !Holds(season.Span, date, anchor: null)) return false;
        var anchor = AnchorOf(site, schedule, date);
        if (schedule.Days.Length > 0 && !schedule.Days.Any(days => Holds(days, date, anchor))) return false;
        return !schedule.Except.Any(days => Holds(days, date, anchor));
    }

    /// <summary>Whether a date is in any of the sets; the anchor is what intervals count from.</summary>
    public static bool HoldsAny(IEnumerable<DaySet> sets, LocalDate date) => sets.Any(days => Holds(days, date, anchor: null));

    public static bool Holds(DaySet days, LocalDate date, LocalDate? anchor) => days switch
    {
        WeekdayDays weekdays => HasDay(weekdays.Days, date.DayOfWeek),
        OddEvenDays odd => (date.Day % 2 == 1) == odd.IsOdd,
        MonthDays month => month.Days.Contains(date.Day),
        LastDayOfMonth => date.PlusDays(1).Day == 1,
        NthWeekday { Nth: -1 } last => date.DayOfWeek == last.Day && date.PlusDays(7).Month != date.Month,
        NthWeekday nth => date.DayOfWeek == nth.Day && date.Day > 7 * (nth.Nth - 1) && date.Day <= 7 * nth.Nth,
        DateRange range => range.First <= date && date <= range.Last,
        YearlyDay yearly => IsExactly(yearly.Day, date),
        YearlyRange or YearlySpan => SeasonAround(days, date) is not null,
        IntervalDays { Anchor: { } own } anchored => IsCounted(anchored, Period.DaysBetween(own, date), date),
        IntervalDays interval => anchor is { } from && IsCounted(interval, Period.DaysBetween(from, date), date),
        _ => throw new NotSupportedException(days.GetType().Name),
    };

    /// <summary>First day of the yearly season that a date lies in, the latest one where two overlap.</summary>
    private static LocalDate? SeasonAround(DaySet days, LocalDate date)
    {
        for (var year = date.Year; year >= date.Year - 2; year--)
        {
            var (first, last) = SeasonOf(days, year);
            if (first <= date && date <= last) return first;
        }

        return null;
    }

    private static (LocalDate First, LocalDate Last) SeasonOf(DaySet days, int year)
    {
        if (days is YearlySpan span)
        {
            var from = AsFirst(span.First, year);
            return (from, from.PlusDays(span.Length - 1));
        }

        var range = (YearlyRange)days;
        var overNewYear = Place(range.First) > Place(range.Last);
        return (AsFirst(range.First, year), AsLast(range.Last, overNewYear ? year + 1 : year));
    }

    private static LocalDate? AnchorOf(Site site, Schedule schedule, LocalDate date) => schedule.Season?.Span switch
    {
        null => site.Effective,
        DateRange range => range.First,
        var yearly => SeasonAround(yearly, date),
    };

    private static bool IsCounted(IntervalDays interval, int daysSince, LocalDate date)
    {
        if (daysSince < 0) return false;
        var within = daysSince % interval.PeriodDays;
        return interval.On is { } on ? within < 7 && HasDay(on, date.DayOfWeek) : within == 0;
    }

    private static bool HasDay(Weekdays days, IsoDayOfWeek day) => days.HasFlag((Weekdays)(1 << ((int)day - 1)));

    private static int Place(YearDay day) => (day.Month * 100) + (day.IsLast ? 99 : day.Day);

    private static bool IsExactly(YearDay day, LocalDate date) =>
        date.Month == day.Month && (day.IsLast ? date.PlusDays(1).Day == 1 : date.Day == day.Day);

    private static LocalDate AsFirst(YearDay day, int year)
    {
        if (day.IsLast) return LastOf(year, day.Month);
        return day is { Month: 2, Day: 29 } && !IsLeap(year) ? new LocalDate(year, 3, 1) : new LocalDate(year, day.Month, day.Day);
    }

    private static LocalDate AsLast(YearDay day, int year)
    {
        if (day.IsLast) return LastOf(year, day.Month);
        return day is { Month: 2, Day: 29 } && !IsLeap(year) ? new LocalDate(year, 2, 28) : new LocalDate(year, day.Month, day.Day);
    }

    private static LocalDate LastOf(int year, int month) => new(year, month, CalendarSystem.Iso.GetDaysInMonth(year, month));

    private static bool IsLeap(int year) => CalendarSystem.Iso.IsLeapYear(year);
}
