using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>Marks the days of day sets over a stretch.</summary>
/// <param name="season">The schedule's bounds, which intervals count from; null when they count from <paramref name="effective"/>.</param>
/// <param name="effective">The site's first day, in days since 1970-01-01.</param>
internal sealed class DayMarker(Season? season, int effective)
{
    /// <summary>The union of day sets over a stretch.</summary>
    public DayBits Union(ImmutableArray<DaySet> sets, int first, int length)
    {
        var bits = new DayBits(first, length);
        foreach (var set in sets)
            Mark(set, bits);
        return bits;
    }

    private void Mark(DaySet set, DayBits bits)
    {
        switch (set)
        {
            case WeekdayDays weekdays:
                MarkWeeks(bits, weekdays.Days, step: 7, bits.First, bits.End - 1);
                break;
            case IntervalDays interval:
                MarkInterval(bits, interval);
                break;
            case DateRange or YearlyRange or YearlySpan:
                foreach (var span in SpansOfDays.Of(set, bits.First, bits.End - 1))
                    bits.MarkEvery(1, span.First, span.Last);
                break;
            default:
                foreach (var month in CivilMonth.Between(bits.First, bits.End - 1))
                    MarkInMonth(bits, set, month);
                break;
        }
    }

    private static void MarkInMonth(DayBits bits, DaySet set, CivilMonth month)
    {
        switch (set)
        {
            case OddEvenDays parity:
                bits.MarkEvery(2, parity.IsOdd ? month.First : month.First + 1, month.Last);
                break;
            case MonthDays monthDays:
                foreach (var day in monthDays.Days)
                    MarkDayOfMonth(bits, month, day);
                break;
            case LastDayOfMonth:
                bits.Mark(month.Last);
                break;
            case NthWeekday nth:
                bits.Mark(NthOf(month, nth));
                break;
            case YearlyDay yearly when yearly.Day.Month == month.Month:
                MarkDayOfMonth(bits, month, yearly.Day.IsLast ? month.Length : yearly.Day.Day);
                break;
            case YearlyDay:
                break;
            default:
                throw new ArgumentException($"not a day set of the language: {set.GetType().Name}", nameof(set));
        }
    }

    private static void MarkDayOfMonth(DayBits bits, CivilMonth month, int day)
    {
        if (day <= month.Length)
            bits.Mark(month.First + day - 1);
    }

    private static int NthOf(CivilMonth month, NthWeekday nth)
    {
        var first = month.FirstWeekday(nth.Day);
        if (nth.Nth > 0)
            return first + (7 * (nth.Nth - 1));
        return first + 28 <= month.Last ? first + 28 : first + 21;
    }

    private void MarkInterval(DayBits bits, IntervalDays interval)
    {
        foreach (var counted in interval.Anchor is { } anchor ? [new(CivilDate.DayNumberOf(anchor), int.MaxValue)] : Counted(bits))
        {
            if (interval.On is { } weekdays)
                MarkWeeks(bits, weekdays, interval.PeriodDays, counted.First, counted.Last);
            else
                bits.MarkEvery(interval.PeriodDays, counted.First, counted.Last);
        }
    }

    /// <summary>The stretches of days over which an interval counts on from the first of them.</summary>
    private IEnumerable<DaySpan> Counted(DayBits bits) => season is null
        ? [new(effective, int.MaxValue)]
        : SpansOfDays.Of(season.Span, bits.First, bits.End - 1);

    /// <summary>Marks weekdays of the seven days from <paramref name="first"/>, and the same again every <paramref name="step"/> days.</summary>
    private static void MarkWeeks(DayBits bits, Weekdays weekdays, int step, int first, int last)
    {
        for (var day = first; day < first + 7; day++)
        {
            if (weekdays.HasFlag(CivilDate.WeekdayOf(day)))
                bits.MarkEvery(step, day, last);
        }
    }
}
