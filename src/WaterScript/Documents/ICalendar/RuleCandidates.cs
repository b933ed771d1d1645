using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>Rules that may say the days of a schedule. Each is only a guess, from what the schedule says and from the days themselves.</summary>
internal sealed class RuleCandidates
{
    private const int DaysOfTwoMonths = 62;
    private readonly HashSet<RecurrenceRule> _hints = [];

    /// <summary>Guesses from what a schedule says.</summary>
    /// <param name="sets">The day sets in its lines.</param>
    /// <param name="shift">Days from the date of an event to the local date on which it starts.</param>
    public RuleCandidates(IEnumerable<DaySet> sets, int shift)
    {
        var weekdays = Weekdays.None;
        foreach (var set in sets)
        {
            switch (set)
            {
                case WeekdayDays days:
                    weekdays |= Shifted(days.Days, shift);
                    _hints.Add(RecurrenceRule.OnWeekdays(Shifted(days.Days, shift)));
                    break;
                case IntervalDays { On: null } interval:
                    _hints.Add(RecurrenceRule.EveryDays(interval.PeriodDays));
                    break;
                case IntervalDays { On: { } on } interval:
                    for (var start = 0; start < 7; start++) _hints.Add(RecurrenceRule.OnWeekdays(Shifted(on, shift), interval.PeriodDays / 7, start));
                    break;
                case OddEvenDays parity:
                    AddMonthDays(Enumerable.Range(1, 31).Where(day => day % 2 == 1 == parity.IsOdd), shift);
                    break;
                case MonthDays days:
                    AddMonthDays(days.Days, shift);
                    break;
                case LastDayOfMonth when shift == 0:
                    _hints.Add(RecurrenceRule.OnMonthDays(RecurrenceRule.LastDay));
                    break;
                case NthWeekday nth:
                    _hints.Add(RecurrenceRule.OnNth(nth.Nth, Shifted((Weekdays)(1 << ((int)nth.Day - 1)), shift)));
                    break;
            }
        }

        if (weekdays != Weekdays.None) _hints.Add(RecurrenceRule.OnWeekdays(weekdays));
    }

    /// <summary>Rules for days that are left to be said, the first of which is their anchor.</summary>
    public IEnumerable<RecurrenceRule> For(ImmutableArray<int> days)
    {
        var found = new HashSet<RecurrenceRule>(_hints) { RecurrenceRule.EveryDays(1) };
        if (days.Length > 1) found.Add(Every(days[1] - days[0], days[0]));
        foreach (var length in (ReadOnlySpan<int>)[7, 14])
        {
            var weekdays = Weekdays.None;
            foreach (var day in days.TakeWhile(day => day < days[0] + length)) weekdays |= CivilDate.WeekdayOf(day);
            found.Add(RecurrenceRule.OnWeekdays(weekdays));
        }

        var monthDays = 0u;
        foreach (var day in days.TakeWhile(day => day < days[0] + DaysOfTwoMonths)) monthDays |= 1u << CivilDate.FromDayNumber(day).Day;
        found.Add(RecurrenceRule.OnMonthDays(monthDays));
        return found.Concat(InMonths(found, days)).Where(rule => rule.Contains(days[0], days[0]) && rule.CanBeginOn(days[0]));
    }

    /// <summary>
    /// The same rules in the months of the days only, as a season or a length of the month has them. Not those of days of the month: some
    /// readers give the days of the first month twice.
    /// </summary>
    private static IEnumerable<RecurrenceRule> InMonths(IEnumerable<RecurrenceRule> rules, ImmutableArray<int> days)
    {
        var months = days.Aggregate(0, (bits, day) => bits | (1 << CivilDate.FromDayNumber(day).Month));
        return months == RecurrenceRule.AllMonths
            ? []
            : rules.Where(rule => rule.Interval == 1 && rule.Frequency != RuleFrequency.Monthly).Select(rule => rule with { Months = months });
    }

    /// <summary>Whole weeks are said as weeks, as a person would.</summary>
    private static RecurrenceRule Every(int days, int first) =>
        days % 7 == 0 ? RecurrenceRule.OnWeekdays(CivilDate.WeekdayOf(first), days / 7) : RecurrenceRule.EveryDays(days);

    /// <summary>Each day before the first of a month is the last of the one before.</summary>
    private void AddMonthDays(IEnumerable<int> days, int shift)
    {
        var bits = 0u;
        foreach (var day in days)
        {
            if (day + shift is >= 0 and <= 31) bits |= 1u << (day + shift);
        }

        if (bits != 0) _hints.Add(RecurrenceRule.OnMonthDays(bits));
    }

    private static Weekdays Shifted(Weekdays days, int shift)
    {
        var by = ((shift % 7) + 7) % 7;
        return (Weekdays)((((int)days << by) | ((int)days >> (7 - by))) & (int)Weekdays.All);
    }
}
