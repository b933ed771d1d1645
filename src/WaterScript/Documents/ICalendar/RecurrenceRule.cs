using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>How often a rule comes round.</summary>
internal enum RuleFrequency
{
    /// <summary>Every so many days.</summary>
    Daily,

    /// <summary>On days of the week, every so many weeks.</summary>
    Weekly,

    /// <summary>On days of every month.</summary>
    Monthly,

    /// <summary>
    /// On days of some months, every year. Days or weeks that hold in some months only are said so too: a widespread reader leaves the months of a
    /// daily or weekly rule out of account.
    /// </summary>
    Yearly,
}

/// <summary>
/// A recurrence rule (RFC 5545, 3.3.10), of the few kinds that all readers expand alike. It is counted from its anchor, the first of its days.
/// </summary>
internal sealed record RecurrenceRule(RuleFrequency Frequency)
{
    /// <summary>In <see cref="MonthDays"/>, the last day of the month.</summary>
    public const uint LastDay = 1;

    /// <summary>In <see cref="Months"/>, each of them.</summary>
    public const int AllMonths = 0b1_1111_1111_1110;

    private static readonly string[] WeekdayCodes = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];

    /// <summary>Every so many days or weeks.</summary>
    public int Interval { get; init; } = 1;

    /// <summary>Days of the week; none where the rule does not go by them.</summary>
    public Weekdays Weekdays { get; init; }

    /// <summary>Days after Monday on which a week begins.</summary>
    public int WeekStart { get; init; }

    /// <summary>Days of the month, bit by bit, and <see cref="LastDay"/>; 0 where the rule does not go by them.</summary>
    public uint MonthDays { get; init; }

    /// <summary>Which of the month's <see cref="Weekdays"/>: 1 to 4, or -1 for the last; 0 for each.</summary>
    public int Nth { get; init; }

    /// <summary>The months in which a yearly rule holds, bit 1 for January; 0 for all.</summary>
    public int Months { get; init; }

    /// <summary>Every so many days.</summary>
    public static RecurrenceRule EveryDays(int interval) => new(RuleFrequency.Daily) { Interval = interval };

    /// <summary>On days of the week, every so many weeks.</summary>
    public static RecurrenceRule OnWeekdays(Weekdays days, int interval = 1, int weekStart = 0) =>
        new(RuleFrequency.Weekly) { Weekdays = days, Interval = interval, WeekStart = weekStart };

    /// <summary>On days of every month.</summary>
    public static RecurrenceRule OnMonthDays(uint days) => new(RuleFrequency.Monthly) { MonthDays = days };

    /// <summary>On one weekday of every month.</summary>
    public static RecurrenceRule OnNth(int nth, Weekdays day) => new(RuleFrequency.Monthly) { Nth = nth, Weekdays = day };

    /// <summary>The same days in some months only.</summary>
    /// <param name="months">Bit 1 for January.</param>
    /// <param name="monthDays">Only these days of them, bit by bit; 0 for all.</param>
    /// <returns>
    /// Null where no rule says them that is read alike: those that count from an anchor, an nth weekday or a last day among some days of a month, and days
    /// of several months, of which some readers give some twice.
    /// </returns>
    public RecurrenceRule? InMonths(int months, uint monthDays = 0)
    {
        if (Interval > 1 || (monthDays != 0 && (Nth != 0 || (MonthDays & LastDay) != 0))) return null;
        var days = MonthDays == 0 || monthDays == 0 ? MonthDays | monthDays : MonthDays & monthDays;
        if ((days == 0 && MonthDays != 0) || (days != 0 && !BitOperations.IsPow2(months))) return null;
        var weekdays = Weekdays == Weekdays.None && days == 0 ? Weekdays.All : Weekdays;
        return new(RuleFrequency.Yearly) { Months = months, MonthDays = days, Weekdays = weekdays, Nth = Nth };
    }

    /// <summary>Whether a day, no earlier than the anchor, is one of the rule's.</summary>
    /// <param name="day">In days since 1970-01-01.</param>
    /// <param name="anchor">A day of the rule.</param>
    public bool Contains(int day, int anchor)
    {
        if (Weekdays != Weekdays.None && (Weekdays & CivilDate.WeekdayOf(day)) == 0) return false;
        if (Frequency == RuleFrequency.Daily && (day - anchor) % Interval != 0) return false;
        if (Frequency == RuleFrequency.Weekly && Interval > 1 && (WeekOf(day) - WeekOf(anchor)) / 7 % Interval != 0) return false;
        return (MonthDays == 0 && Nth == 0 && Months == 0) || HoldsOn(CivilDate.FromDayNumber(day));
    }

    /// <summary>
    /// Whether a series of the rule may begin on one of its days. Some readers lose their way in one of every so many weeks that
    /// begins within a week: behind another of its weekdays.
    /// </summary>
    public bool CanBeginOn(int day)
    {
        if (Frequency != RuleFrequency.Weekly || Interval == 1) return true;
        for (var earlier = WeekOf(day); earlier < day; earlier++)
        {
            if ((Weekdays & CivilDate.WeekdayOf(earlier)) != 0) return false;
        }

        return true;
    }

    /// <summary>The value of the property: <c>FREQ=WEEKLY;BYDAY=TU,FR;UNTIL=20260929T050000Z;WKST=MO</c>.</summary>
    /// <param name="end">What it ends with, <c>UNTIL=…</c> or <c>COUNT=…</c>; null for nothing.</param>
    /// <param name="hasPosition">Whether an nth weekday stands as a position, as the templates of office calendars have it.</param>
    public string Text(string? end = null, bool hasPosition = false)
    {
        var parts = new List<string> { $"FREQ={Frequency.ToString().ToUpperInvariant()}" };
        if (Months != 0) parts.Add($"BYMONTH={Bits((uint)Months, 1, 12)}");
        if (MonthDays != 0) parts.Add($"BYMONTHDAY={MonthDayNumbers()}");
        if (Weekdays != Weekdays.None) parts.Add($"BYDAY={string.Join(',', Codes(hasPosition ? 0 : Nth))}");
        if (hasPosition && Nth != 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"BYSETPOS={Nth}"));
        if (Interval > 1) parts.Add(string.Create(CultureInfo.InvariantCulture, $"INTERVAL={Interval}"));
        if (end is not null) parts.Add(end);
        if (Frequency == RuleFrequency.Weekly) parts.Add($"WKST={WeekdayCodes[WeekStart]}");
        return string.Join(';', parts);
    }

    /// <summary>The first day of the week that a day lies in.</summary>
    public int WeekOf(int day) => WeekOf(day, WeekStart);

    /// <summary>Whether a day lies in a month in which the rule holds.</summary>
    public bool IsInMonths(int day) => Months == 0 || (Months & (1 << CivilDate.FromDayNumber(day).Month)) != 0;

    private static string Bits(uint bits, int first, int last) =>
        string.Join(',', Enumerable.Range(first, last - first + 1).Where(bit => (bits & (1u << bit)) != 0)
            .Select(bit => bit.ToString(CultureInfo.InvariantCulture)));

    private static int WeekOf(int day, int weekStart) => day - ((CivilDate.DaysAfterMonday(day) - weekStart + 7) % 7);

    private string MonthDayNumbers()
    {
        var numbers = Bits(MonthDays, 1, 31);
        if ((MonthDays & LastDay) == 0) return numbers;
        return numbers.Length == 0 ? "-1" : numbers + ",-1";
    }

    private ImmutableArray<string> Codes(int position)
    {
        var nth = position == 0 ? "" : position.ToString(CultureInfo.InvariantCulture);
        return [.. Enumerable.Range(0, 7).Where(day => ((int)Weekdays & (1 << day)) != 0).Select(day => nth + WeekdayCodes[day])];
    }

    private bool HoldsOn(CivilDate date)
    {
        if (Months != 0 && (Months & (1 << date.Month)) == 0) return false;
        var length = CivilDate.DaysInMonth(date.Year, date.Month);
        if (MonthDays != 0 && (MonthDays & (1u << date.Day)) == 0 && (date.Day != length || (MonthDays & LastDay) == 0)) return false;
        return Nth switch
        {
            0 => true,
            < 0 => date.Day + 7 > length,
            _ => (date.Day + 6) / 7 == Nth,
        };
    }
}
