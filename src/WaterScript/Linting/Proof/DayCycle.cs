using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Linting.Proof;

/// <summary>Days that come again after so many, without an end: a Monday, every 365 days.</summary>
/// <param name="Period">How many, 1 or more.</param>
/// <param name="First">The first of them, in days since 1970-01-01.</param>
internal readonly record struct DayCycle(int Period, int First)
{
    private const int DaysInWeek = 7;

    /// <summary>The days of a start as cycles; null when they are not only weekdays and intervals without an end.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="start">One of its starts.</param>
    /// <param name="effective">The site's first date.</param>
    public static ImmutableArray<DayCycle>? Of(Schedule schedule, Start start, LocalDate effective)
    {
        if (!start.On.IsEmpty || !schedule.Except.IsEmpty || FirstOf(schedule.Season, effective) is not { } first) return null;
        var cycles = ImmutableArray.CreateBuilder<DayCycle>();
        foreach (var days in schedule.Days)
        {
            if (days is WeekdayDays weekdays) AddWeekdays(cycles, weekdays.Days, DaysInWeek, first);
            else if (days is IntervalDays { On: { } on } weeks) AddWeekdays(cycles, on, weeks.PeriodDays, first);
            else if (days is IntervalDays interval) cycles.Add(new DayCycle(interval.PeriodDays, first));
            else return null;
        }

        return cycles.ToImmutable();
    }

    /// <summary>
    /// The first day from one on that is in this cycle while another is so many days later. Both are congruences, which
    /// have a common solution when their difference is a multiple of what divides both periods (the Chinese remainder theorem).
    /// </summary>
    /// <param name="other">The other cycle.</param>
    /// <param name="shift">How many days later its day is.</param>
    /// <param name="from">The first day to look at.</param>
    /// <returns>A day number, or null when there is none, ever.</returns>
    public long? FirstWith(DayCycle other, int shift, long from)
    {
        var common = GreatestDivisor(Period, other.Period);
        long otherFirst = other.First - shift;
        if ((otherFirst - First) % common != 0) return null;
        var (period, otherPeriod) = (Period / common, other.Period / common);
        var steps = Remainder((otherFirst - First) / common * Inverse(period, otherPeriod), otherPeriod);
        var meeting = First + (steps * Period);
        var least = Math.Max(from, Math.Max(First, otherFirst));
        var together = (long)Period * otherPeriod;
        return meeting + (((least - meeting) + Remainder(meeting - least, together)) / together * together);
    }

    private static void AddWeekdays(ImmutableArray<DayCycle>.Builder cycles, Weekdays days, int period, int first)
    {
        for (var day = first; day < first + DaysInWeek; day++)
        {
            if (days.HasFlag(CivilDate.WeekdayOf(day))) cycles.Add(new DayCycle(period, day));
        }
    }

    /// <summary>The day that is counted from; null where a season ends.</summary>
    private static int? FirstOf(Season? season, LocalDate effective) => season?.Span switch
    {
        null => CivilDate.DayNumberOf(effective),
        DateRange range when range.Last == LocalDate.MaxIsoValue && range.First >= effective => CivilDate.DayNumberOf(range.First),
        _ => null,
    };

    private static int GreatestDivisor(int first, int second) => second == 0 ? first : GreatestDivisor(second, first % second);

    private static long Remainder(long dividend, long divisor) => ((dividend % divisor) + divisor) % divisor;

    /// <summary>What times a number leaves 1 over a modulus that shares no divisor with it (the extended algorithm of Euclid).</summary>
    private static long Inverse(long number, long modulus)
    {
        var (old, rest) = (number % modulus, modulus);
        long oldFactor = 1, factor = 0;
        while (rest != 0)
        {
            var quotient = old / rest;
            (old, rest) = (rest, old - (quotient * rest));
            (oldFactor, factor) = (factor, oldFactor - (quotient * factor));
        }

        return Remainder(oldFactor, modulus);
    }
}
