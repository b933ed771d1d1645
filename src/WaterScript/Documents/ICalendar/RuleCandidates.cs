using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>How days are said by rules.</summary>
/// <param name="IsSimple">Whether only by rules that office calendars map.</param>
/// <param name="PrefersMonths">Whether of rules that say the same one that names its months is better, because it may go on.</param>
internal sealed record RuleWay(bool IsSimple = false, bool PrefersMonths = false)
{
    /// <summary>The months that each rule names, bit 1 for January.</summary>
    public int Months { get; init; } = RecurrenceRule.AllMonths;

    /// <summary>The days of those months that each rule keeps to, bit by bit; 0 for all.</summary>
    public uint MonthDays { get; init; }

    /// <summary>Whether a rule for fewer events is worth it, because it goes on.</summary>
    public bool IsForAny { get; init; }
}

/// <summary>Rules that may say the days of a schedule. Each is only a guess, from what the schedule says and from the days themselves.</summary>
internal sealed class RuleCandidates
{
    private const int DaysOfTwoMonths = 62;
    private const int LastDayOfEveryMonth = 28;
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
    /// <param name="days">The days.</param>
    /// <param name="way">How to say them.</param>
    public IEnumerable<RecurrenceRule> For(ImmutableArray<int> days, RuleWay way)
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
        return Said(found, days, way).Where(rule => rule.Contains(days[0], days[0]) && rule.CanBeginOn(days[0]));
    }

    private static IEnumerable<RecurrenceRule> Said(HashSet<RecurrenceRule> rules, ImmutableArray<int> days, RuleWay way) => way switch
    {
        { IsSimple: true } => rules.SelectMany(Simple),
        { MonthDays: not 0 } or { Months: not RecurrenceRule.AllMonths } =>
            rules.Select(rule => rule.InMonths(way.Months, way.MonthDays)).OfType<RecurrenceRule>(),
        _ => rules.Concat(InMonthsOf(rules, days)),
    };

    /// <summary>The same rules in the months of the days only, as a season or a length of the month has them.</summary>
    private static IEnumerable<RecurrenceRule> InMonthsOf(IEnumerable<RecurrenceRule> rules, ImmutableArray<int> days)
    {
        var months = days.Aggregate(0, (bits, day) => bits | (1 << CivilDate.FromDayNumber(day).Month));
        return months == RecurrenceRule.AllMonths ? [] : rules.Select(rule => rule.InMonths(months)).OfType<RecurrenceRule>();
    }

    /// <summary>
    /// The rules that office calendars map: of days of the month one each, and none that a short month lacks, because they take such a day for the last
    /// one of the month.
    /// </summary>
    private static IEnumerable<RecurrenceRule> Simple(RecurrenceRule rule)
    {
        if (rule.MonthDays == 0) return [rule];
        return Enumerable.Range(0, LastDayOfEveryMonth + 1)
            .Where(day => (rule.MonthDays & (1u << day)) != 0)
            .Select(day => RecurrenceRule.OnMonthDays(1u << day));
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
