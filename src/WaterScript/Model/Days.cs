using System.Collections.Immutable;
using NodaTime;

namespace WaterScript.Model;

/// <summary>Days of the week, as a set.</summary>
[Flags]
internal enum Weekdays
{
    /// <summary>No day.</summary>
    None = 0,

    /// <summary>Monday.</summary>
    Monday = 1,

    /// <summary>Tuesday.</summary>
    Tuesday = 1 << 1,

    /// <summary>Wednesday.</summary>
    Wednesday = 1 << 2,

    /// <summary>Thursday.</summary>
    Thursday = 1 << 3,

    /// <summary>Friday.</summary>
    Friday = 1 << 4,

    /// <summary>Saturday.</summary>
    Saturday = 1 << 5,

    /// <summary>Sunday.</summary>
    Sunday = 1 << 6,

    /// <summary>All seven.</summary>
    All = (1 << 7) - 1,
}

/// <summary>A set of dates without a beginning or an end.</summary>
internal abstract record DaySet;

/// <summary><c>mon, wed to fri</c></summary>
internal sealed record WeekdayDays(Weekdays Days) : DaySet;

/// <summary><c>odd days</c>, <c>even days</c>: by the day of the month.</summary>
internal sealed record OddEvenDays(bool IsOdd) : DaySet;

/// <summary><c>days 1, 15 of month</c>; a month without such a day is skipped.</summary>
/// <param name="Days">1 to 31, in order, each once.</param>
internal sealed record MonthDays(ImmutableArray<int> Days) : DaySet;

/// <summary><c>last day of month</c></summary>
internal sealed record LastDayOfMonth : DaySet;

/// <summary><c>first mon of month</c></summary>
/// <param name="Nth">1 to 4, or -1 for the last.</param>
/// <param name="Day">The weekday.</param>
internal sealed record NthWeekday(int Nth, IsoDayOfWeek Day) : DaySet;

/// <summary>From a date to a date, both included; one date when they are equal.</summary>
internal sealed record DateRange(LocalDate First, LocalDate Last) : DaySet;

/// <summary>From a day to a day of every year, both included; over new year when the first is the later one.</summary>
/// <param name="First">First day; 29 February stands for 1 March in a common year.</param>
/// <param name="Last">Last day; 29 February stands for 28 February in a common year.</param>
internal sealed record YearlyRange(YearDay First, YearDay Last) : DaySet;

/// <summary>One day of every year; 29 February is no day in a common year.</summary>
internal sealed record YearlyDay(YearDay Day) : DaySet;

/// <summary>
/// Every so many days, or days of the week in every so many weeks, counted from the schedule's anchor: its <c>from</c> date
/// that names a year, each season's first day where its <c>from</c> names none, else the site's <c>effective</c> date.
/// </summary>
/// <param name="PeriodDays">Length of the period in days; a multiple of 7 when it counts weeks.</param>
/// <param name="On">Null when it counts days: then the first day of each period. Else these days in the first seven days of each period.</param>
internal sealed record IntervalDays(int PeriodDays, Weekdays? On) : DaySet
{
    /// <summary>The date that it counts from in place of those, before which it has none; null where it is not written.</summary>
    public LocalDate? Anchor { get; init; }
}

/// <summary>A day of the year without a year.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="Day">1 to the month's longest, or 0 for the last day of the month.</param>
internal readonly record struct YearDay(int Month, int Day)
{
    /// <summary>Whether it is the month's last day, whatever the year.</summary>
    public bool IsLast => Day == 0;
}

/// <summary>The bounds of a schedule: a dated span, a yearly one, or a dated start without an end.</summary>
/// <param name="Span">A <see cref="DateRange"/>, a <see cref="YearlyRange"/> or a <see cref="YearlySpan"/>.</param>
internal sealed record Season(DaySet Span);

/// <summary>From a day of every year for so many days: <c>from 1 mar for 3 weeks</c>.</summary>
/// <param name="First">First day; 29 February stands for 1 March in a common year.</param>
/// <param name="Length">Number of days, 1 to 366.</param>
internal sealed record YearlySpan(YearDay First, int Length) : DaySet;
