using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;

namespace WaterScript.Simulation;

/// <summary>One cause, counted while it goes on happening: the first time, the last, how often, on how many dates, and what it comes to at worst.</summary>
internal sealed class OccurrenceCounter
{
    /// <summary>By date: the first and the last time on each, in seconds after midnight in UTC; small, as there are years of them.</summary>
    private readonly List<DayTimes> _days = [];

    /// <summary>Whether it has happened.</summary>
    public bool Happened => Times > 0;

    /// <summary>The first time, in Unix seconds; once it has happened.</summary>
    public long First { get; private set; } = long.MaxValue;

    /// <summary>The last time.</summary>
    public long Last { get; private set; } = long.MinValue;

    /// <summary>How often.</summary>
    public long Times { get; private set; }

    /// <summary>On how many local dates.</summary>
    public int Days => _days.Count;

    /// <summary>The most that it comes to; 0 before anything is.</summary>
    public decimal Worst { get; private set; }

    /// <summary>Counts one time.</summary>
    /// <param name="instant">When, in Unix seconds.</param>
    /// <param name="context">Knows the date.</param>
    /// <returns>Whether no earlier time was counted before.</returns>
    public bool Add(long instant, SimulationContext context) => Add(instant, context.DayOf(instant));

    /// <summary>Counts one time on a local date.</summary>
    public bool Add(long instant, int day)
    {
        var isFirst = instant < First;
        if (isFirst) First = instant;
        Last = Math.Max(Last, instant);
        Times++;
        AddTo(day, (int)(instant - MidnightUtc(day)));
        return isFirst;
    }

    private void AddTo(int day, int second)
    {
        var index = _days.Count - 1;
        while (index >= 0 && _days[index].Day > day) index--;
        if (index >= 0 && _days[index].Day == day)
            _days[index] = new DayTimes(day, Math.Min(second, _days[index].First), Math.Max(second, _days[index].Last));
        else _days.Insert(index + 1, new DayTimes(day, second, second));
    }

    /// <summary>Takes in what it comes to.</summary>
    /// <returns>Whether it never came to as much before.</returns>
    public bool Reach(decimal amount)
    {
        if (amount <= Worst) return false;
        Worst = amount;
        return true;
    }

    /// <summary>The first and the last time of each date, in order, in Unix seconds.</summary>
    private IEnumerable<long> Moments =>
        _days.SelectMany(times => new[] { MidnightUtc(times.Day) + times.First, MidnightUtc(times.Day) + times.Last }).Distinct();

    /// <summary>When it happens, by the site's clock.</summary>
    public Occurrences Happens(SimulationContext context) => new(context.ClockAt(First), context.ClockAt(Last), Times, Days)
    {
        IsStill = IsStill(context.ClockAt(Last).Date.PlusDays(1), context.Horizon.Until),
        Worst = Worst,
        Moments = Moments,
    };

    /// <summary>On which dates it happens, once it has.</summary>
    public Occurrences WholeDays => new(MidnightOf(_days[0].Day), MidnightOf(_days[^1].Day), Times, Days)
    {
        IsWholeDays = true,
        Worst = Worst,
        Moments = Moments,
    };

    private bool IsStill(LocalDate after, LocalDate end) =>
        Days > 1 && (long)Period.DaysBetween(after, end) * (Days - 1) < _days[^1].Day - _days[0].Day;

    private static long MidnightUtc(int day) => (long)day * ZoneClock.SecondsInDay;

    private static LocalDateTime MidnightOf(int day) => CivilDate.FromDayNumber(day).ToLocalDate().AtMidnight();

    private readonly record struct DayTimes(int Day, int First, int Last);
}
