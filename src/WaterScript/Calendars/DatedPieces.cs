using NodaTime;

namespace WaterScript.Calendars;

/// <summary>Splits stretches of time at local midnights, so that each piece lies on the date that the clock shows all the while.</summary>
internal sealed class DatedPieces(ZoneClock clock)
{
    private long _steadyFrom = long.MaxValue;
    private long _steadyUntil = long.MinValue;

    /// <summary>The pieces of a stretch, in order.</summary>
    /// <param name="from">Its first second, in Unix seconds.</param>
    /// <param name="until">The second after its last.</param>
    public IEnumerable<(int Day, long From, long Until)> Of(long from, long until)
    {
        while (from < until)
        {
            if (from < _steadyFrom || from >= _steadyUntil) FindSteady(from);
            var wall = clock.At(from);
            var end = Math.Min(Math.Min(until, _steadyUntil), from + ZoneClock.SecondsInDay - wall.SecondOfDay);
            yield return (wall.Day, from, end);
            from = end;
        }
    }

    /// <summary>A clock that is put back at midnight shows a date again that was over, so no piece goes on past a change.</summary>
    private void FindSteady(long instant)
    {
        var interval = clock.Zone.GetZoneInterval(Instant.FromUnixTimeSeconds(instant));
        _steadyFrom = interval.HasStart ? interval.Start.ToUnixTimeSeconds() : long.MinValue;
        _steadyUntil = interval.HasEnd ? interval.End.ToUnixTimeSeconds() : long.MaxValue;
    }
}
