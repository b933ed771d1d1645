using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;

namespace WaterScript.Simulation;

/// <summary>One cause, counted while it goes on happening: the first time, the last, how often, on how many dates, and what it comes to at worst.</summary>
internal sealed class OccurrenceCounter
{
    private readonly DayMoments _moments = new();

    /// <summary>Whether it has happened.</summary>
    public bool Happened => Times > 0;

    /// <summary>The first time, in Unix seconds; once it has happened.</summary>
    public long First { get; private set; } = long.MaxValue;

    /// <summary>The last time.</summary>
    public long Last { get; private set; } = long.MinValue;

    /// <summary>How often.</summary>
    public long Times { get; private set; }

    /// <summary>On how many local dates.</summary>
    public int Days => _moments.Days;

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
        _moments.Add(instant, day);
        return isFirst;
    }

    /// <summary>Takes in what it comes to.</summary>
    /// <returns>Whether it never came to as much before.</returns>
    public bool Reach(decimal amount)
    {
        if (amount <= Worst) return false;
        Worst = amount;
        return true;
    }

    /// <summary>When it happens, by the site's clock.</summary>
    public Occurrences Happens(SimulationContext context) => new(context.ClockAt(First), context.ClockAt(Last), Times, Days)
    {
        IsStill = IsStill(context.ClockAt(Last).Date.PlusDays(1), context.Horizon.Until),
        Worst = Worst,
        Moments = _moments.All,
    };

    /// <summary>On which dates it happens, once it has.</summary>
    public Occurrences WholeDays => new(MidnightOf(_moments.FirstDay), MidnightOf(_moments.LastDay), Times, Days)
    {
        IsWholeDays = true,
        Worst = Worst,
        Moments = _moments.All,
    };

    private bool IsStill(LocalDate after, LocalDate end) =>
        Days > 1 && (long)Period.DaysBetween(after, end) * (Days - 1) < _moments.LastDay - _moments.FirstDay;

    private static LocalDateTime MidnightOf(int day) => CivilDate.FromDayNumber(day).ToLocalDate().AtMidnight();
}
