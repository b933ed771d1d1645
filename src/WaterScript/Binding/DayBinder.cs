using System.Collections.Immutable;
using NodaTime;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Lists of days, intervals and seasons.</summary>
/// <param name="scope">Where findings go.</param>
/// <param name="source">The file.</param>
internal sealed class DayBinder(Scope scope, SourceText source)
{
    private const int MostDays = 3_660;
    private readonly DateReader _dates = new(scope, source);

    /// <summary>The days of the week as the language writes them, Monday first.</summary>
    public static IReadOnlyList<string> WeekdayNames { get; } = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

    /// <summary>A union of days; what could not be read is left out and reported.</summary>
    public ImmutableArray<DaySet> Bind(IEnumerable<DayNode> nodes)
    {
        var days = ImmutableArray.CreateBuilder<DaySet>();
        foreach (var node in nodes)
        {
            if (Named(node) is { } named) days.AddRange(named);
            else if (Bind(node) is { } set) days.Add(set);
        }

        return days.DrainToImmutable();
    }

    /// <summary>An interval.</summary>
    public IntervalDays? Interval(IntervalNode node)
    {
        if (Uncounted(node) is not { } interval) return null;
        if (node.From is null) return interval;
        return _dates.Dated(node.From) is { } anchor ? interval with { Anchor = anchor } : null;
    }

    private IntervalDays? Uncounted(IntervalNode node)
    {
        var count = node.Count is null ? 1 : WholeNumber(node.Count, 1, node.IsWeeks ? MostDays / 7 : MostDays);
        if (count is not { } every) return null;
        if (!node.IsWeeks)
        {
            if (node.On.IsEmpty) return new IntervalDays(every, null);
            scope.Report(ReadingRules.Contradiction, At(node.Span), "every so many days has no days of the week",
                help: "Count in weeks, such as `every 2 weeks on tue, thu`.");
            return null;
        }

        if (node.On.IsEmpty)
        {
            scope.Report(ReadingRules.Missing, At(node.Span), "the days of the week are missing", help: "Name them, such as `every 2 weeks on tue, thu`.");
            return null;
        }

        var weekdays = Weekdays.None;
        foreach (var day in node.On)
        {
            if (day is not WeekdayNode weekday)
            {
                scope.Report(ReadingRules.Contradiction, At(day.Span), "only days of the week can stand here",
                    help: "Name them, such as `every 2 weeks on tue, thu`.");
                return null;
            }

            if (WeekdaySet(weekday) is not { } set) return null;
            weekdays |= set.Days;
        }

        return new IntervalDays(every * 7, weekdays);
    }

    /// <summary>The bounds of a schedule or a restriction.</summary>
    public Season? Season(DateNode first, DateNode? last, RowNode? length)
    {
        if (DateReader.IsYearly(first)) return YearlySeason(first, last, length);
        if (last is not null && IsMixed(last)) return null;
        if (_dates.Dated(first) is not { } from) return null;
        if (length is not null) return _dates.OffsetDays(length) is { } days ? new Season(new DateRange(from, from.PlusDays(days - 1))) : null;
        if (last is null) return new Season(new DateRange(from, LocalDate.MaxIsoValue));
        return _dates.Dated(last) is { } to && InOrder(from, to, last) ? new Season(new DateRange(from, to)) : null;
    }

    /// <summary>One day of the week.</summary>
    public IsoDayOfWeek? Weekday(NameNode node)
    {
        var index = WeekdayNames.ToList().IndexOf(node.Text);
        if (index >= 0) return (IsoDayOfWeek)(index + 1);
        scope.ReportUnknown(At(node.Span), $"\"{node.Text}\" is not a day of the week", node.Text, WeekdayNames);
        return null;
    }

    private Season? YearlySeason(DateNode first, DateNode? last, RowNode? length)
    {
        if (_dates.Yearly(first) is not { } from) return null;
        if (length is not null)
        {
            if (_dates.OffsetDays(length) is not { } days) return null;
            if (days <= 366) return new Season(new YearlySpan(from, days));
            scope.Report(ReadingRules.OutOfRange, At(length.Span), "an interval of more than a year", "at most 366 days");
            return null;
        }

        if (last is null)
        {
            scope.Report(ReadingRules.Missing, At(first.Span), "a yearly season without its end", help: "Write both ends, such as `from 1 apr to 30 sep`.");
            return null;
        }

        return _dates.Yearly(last) is { } to ? new Season(new YearlyRange(from, to)) : null;
    }

    private DaySet? Bind(DayNode node) => node switch
    {
        WeekdayNode weekday => WeekdaySet(weekday),
        OddEvenNode parity => new OddEvenDays(parity.IsOdd),
        MonthDaysNode days => DaysOfMonth(days),
        LastDayNode => new LastDayOfMonth(),
        NthWeekdayNode nth => Weekday(nth.Weekday) is { } day ? new NthWeekday(nth.Nth, day) : null,
        DateRangeNode range => Range(range),
        IntervalNode interval => Interval(interval),
        _ => throw new ArgumentException($"not a day of the language: {node.GetType().Name}", nameof(node)),
    };

    /// <summary>The days of a name, which stands alone; null where the item is something else.</summary>
    private ImmutableArray<DaySet>? Named(DayNode node)
    {
        if (node is not DateRangeNode { First: { Base: LetDateNode let } first } range || !scope.NamedDays.Contains(let.Name)) return null;
        if (first.Offset is null && range.Last is null) return Use(let.Name, At(let.Span));
        scope.Report(ReadingRules.Contradiction, At(node.Span), $"{let.Name} is a list of days, and one date is needed here",
            help: $"Write `{let.Name}` alone, or a date in its place.");
        return [];
    }

    private ImmutableArray<DaySet> Use(string name, Location place)
    {
        var days = scope.NamedDays.Use(name, out var circle, out var isTooDeep);
        if (circle is not null)
            scope.Report(ReadingRules.Loop, place, $"\"{name}\" is made of itself: {circle}", help: "Give the days of one of them.");
        else if (isTooDeep)
            scope.Report(ReadingRules.OverLimit, place, $"more than {Limits.NameDepth} lists of days are made of one another",
                help: "Give the days of this one.");
        return days;
    }

    private WeekdayDays? WeekdaySet(WeekdayNode node)
    {
        if (Weekday(node.First) is not { } first) return null;
        var last = first;
        if (node.Last is not null)
        {
            if (Weekday(node.Last) is not { } given) return null;
            last = given;
        }

        var days = Weekdays.None;
        for (var day = (int)first; ; day = (day % 7) + 1)
        {
            days |= (Weekdays)(1 << (day - 1));
            if (day == (int)last) return new WeekdayDays(days);
        }
    }

    private MonthDays? DaysOfMonth(MonthDaysNode node)
    {
        var days = new SortedSet<int>();
        foreach (var number in node.Days)
        {
            if (WholeNumber(number, 1, 31) is not { } day) return null;
            days.Add(day);
        }

        return new MonthDays([.. days]);
    }

    private DaySet? Range(DateRangeNode node)
    {
        if (node.First.Base is LetDateNode { Name: var name } && scope.Lets.Use(name) is null)
        {
            var heading = $"\"{name}\" is not a day or date";
            if (KnownTypos.Month(name) is { } month)
                scope.Report(ReadingRules.Missing, At(node.First.Base.Span), $"{month} without its days",
                    help: $"Write its days, such as `1 {month} to last {month}`.");
            else if (KnownTypos.Saying(name) is { } form) scope.Report(ReadingRules.UnknownName, At(node.First.Base.Span), heading, help: $"Write `{form}`.");
            else scope.ReportUnknown(At(node.First.Base.Span), heading, name, WeekdayNames, scope.Lets.Names, scope.NamedDays.Names);
            return null;
        }

        if (DateReader.IsYearly(node.First))
        {
            if (_dates.Yearly(node.First) is not { } first) return null;
            if (node.Last is null) return new YearlyDay(first);
            return _dates.Yearly(node.Last) is { } last ? new YearlyRange(first, last) : null;
        }

        if (_dates.Dated(node.First) is not { } from) return null;
        if (node.Last is null) return new DateRange(from, from);
        if (IsMixed(node.Last)) return null;
        return _dates.Dated(node.Last) is { } to && InOrder(from, to, node.Last) ? new DateRange(from, to) : null;
    }

    /// <summary>Whether the end of a range that begins with a year has none itself, which is reported.</summary>
    private bool IsMixed(DateNode last)
    {
        if (!DateReader.IsYearly(last)) return false;
        scope.Report(ReadingRules.Contradiction, At(last.Span), "one end has a year, the other has none", help: "Write both with a year, or both without.");
        return true;
    }

    private bool InOrder(LocalDate first, LocalDate last, DateNode node)
    {
        if (first <= last) return true;
        scope.Report(ReadingRules.OutOfRange, At(node.Span), "the last day comes before the first", help: "Exchange the two dates.");
        return false;
    }

    private int? WholeNumber(NumberNode node, int least, int most)
    {
        if (node.Value >= least && node.Value <= most && node.Value == decimal.Truncate(node.Value)) return (int)node.Value;
        scope.Report(ReadingRules.OutOfRange, At(node.Span), $"{source.Slice(node.Span)} is out of range", $"must be {least} to {most}");
        return null;
    }

    private Location At(TextSpan span) => new(source, span);
}
