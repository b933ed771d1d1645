using BenchmarkDotNet.Attributes;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Benchmarks;

/// <summary>Which days are due: 400 years of every fifth day, and beside them an iCalendar library with the same rule.</summary>
[MemoryDiagnoser]
public class DayPatternBenchmarks
{
    private const int Days = CivilDate.DaysInCycle;
    private static readonly LocalDate Effective = new(2026, 1, 1);
    private static readonly int First = CivilDate.DayNumberOf(Effective);

    private readonly string _rule = "FREQ=DAILY;INTERVAL=5";
    private readonly DayPattern _everyFifthDay = DayPattern.Of([new IntervalDays(5, null)], null, [], Effective);

    private readonly DayPattern _seasonOfOddDays = DayPattern.Of(
        [new OddEvenDays(true), new NthWeekday(-1, IsoDayOfWeek.Monday)],
        new Season(new YearlyRange(new(10, 20), new(4, 5))),
        [new MonthDays([31])],
        Effective);

    /// <summary>Asks day by day.</summary>
    [Benchmark(OperationsPerInvoke = Days)]
    public int EachDay()
    {
        var due = 0;
        for (var day = First; day < First + Days; day++)
        {
            if (_seasonOfOddDays.IsDue(day))
                due++;
        }
        return due;
    }

    /// <summary>Goes from due day to due day; per due day.</summary>
    [Benchmark(OperationsPerInvoke = Days / 5)]
    public int EachDueDay()
    {
        var due = 0;
        for (var day = _everyFifthDay.NextDue(First, First + Days); day is { } found; day = _everyFifthDay.NextDue(found + 1, First + Days))
            due++;
        return due;
    }

    /// <summary>Works out 400 years as bits; per day.</summary>
    [Benchmark(OperationsPerInvoke = Days)]
    public int WholeCycleAsBits() => _seasonOfOddDays.Over(First, Days).Count;

    /// <summary>Ical.Net, FREQ=DAILY;INTERVAL=5; per due day.</summary>
    [Benchmark(OperationsPerInvoke = 10_000)]
    public int EachDueDayByAnICalendarLibrary()
    {
        var item = new CalendarEvent
        {
            Start = new CalDateTime(Effective.Year, Effective.Month, Effective.Day),
            RecurrenceRule = new RecurrenceRule(_rule),
        };
        return item.GetOccurrences().Take(10_000).Count();
    }
}

/// <summary>Wall-clock times of ten years of days to instants, and beside them NodaTime's lenient mapping; per day.</summary>
[MemoryDiagnoser]
public class ZoneClockBenchmarks
{
    private const int Days = 3_652;
    private const int SixInTheMorning = 6 * 3_600;
    private static readonly LocalDateTime Start = new(2026, 1, 1, 6, 0);
    private static readonly int First = CivilDate.DayNumberOf(Start.Date);

    private readonly DateTimeZone _zone = DateTimeZoneProviders.Tzdb["Europe/Lisbon"];
    private readonly ZoneClock _clock = new(DateTimeZoneProviders.Tzdb["Europe/Lisbon"]);

    /// <summary>Date and time to instant.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Days)]
    public long ToInstant()
    {
        var sum = 0L;
        for (var day = First; day < First + Days; day++)
            sum += _clock.Read(day, SixInTheMorning).Instant;
        return sum;
    }

    /// <summary>Instant to date and time.</summary>
    [Benchmark(OperationsPerInvoke = Days)]
    public long FromInstant()
    {
        var sum = 0L;
        for (var day = First; day < First + Days; day++)
            sum += _clock.At((long)day * ZoneClock.SecondsInDay).SecondOfDay;
        return sum;
    }

    /// <summary>NodaTime, InZoneLeniently.</summary>
    [Benchmark(OperationsPerInvoke = Days)]
    public long ToInstantByInZoneLeniently()
    {
        var sum = 0L;
        for (var day = 0; day < Days; day++)
            sum += Start.PlusDays(day).InZoneLeniently(_zone).ToInstant().ToUnixTimeSeconds();
        return sum;
    }
}

/// <summary>Sunrise and sunset of ten years of days; per day.</summary>
[MemoryDiagnoser]
public class SunBenchmarks
{
    private const int Days = 3_652;
    private static readonly int First = CivilDate.DayNumberOf(2026, 1, 1);

    private readonly SunTimes _sun = SunTimes.Of(new Position(39.6, -8.1, null), new ZoneClock(DateTimeZoneProviders.Tzdb["Europe/Lisbon"]));

    /// <summary>Both events of each date.</summary>
    [Benchmark(OperationsPerInvoke = Days)]
    public long SunriseAndSunset()
    {
        var sum = 0L;
        for (var day = First; day < First + Days; day++)
            sum += (_sun.EventOn(day, SunEvent.Sunset) - _sun.EventOn(day, SunEvent.Sunrise)) ?? 0;
        return sum;
    }
}
