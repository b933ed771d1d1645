namespace WaterScript.Calendars;

/// <summary>Moments, of each date only the first and the last: years of them are kept, so they are small.</summary>
internal sealed class DayMoments
{
    private readonly List<DayTimes> _days = [];

    /// <summary>On how many dates.</summary>
    public int Days => _days.Count;

    /// <summary>The first date, in days since 1970-01-01; once there is one.</summary>
    public int FirstDay => _days[0].Day;

    /// <summary>The last date.</summary>
    public int LastDay => _days[^1].Day;

    /// <summary>The first and the last of each date, in order, in Unix seconds.</summary>
    public IEnumerable<long> All =>
        _days.SelectMany(times => new[] { MidnightOf(times.Day) + times.First, MidnightOf(times.Day) + times.Last }).Distinct();

    /// <summary>Takes in a moment of a date; they come nearly in order.</summary>
    public void Add(long instant, int day)
    {
        var second = (int)(instant - MidnightOf(day));
        var index = _days.Count - 1;
        while (index >= 0 && _days[index].Day > day) index--;
        if (index >= 0 && _days[index].Day == day)
            _days[index] = new DayTimes(day, Math.Min(second, _days[index].First), Math.Max(second, _days[index].Last));
        else _days.Insert(index + 1, new DayTimes(day, second, second));
    }

    private static long MidnightOf(int day) => (long)day * ZoneClock.SecondsInDay;

    /// <summary>Times of a date, in seconds after its midnight in UTC.</summary>
    private readonly record struct DayTimes(int Day, int First, int Last);
}
