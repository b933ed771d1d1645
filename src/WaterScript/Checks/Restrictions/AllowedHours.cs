using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Checks;

/// <summary>
/// The hours in which a restriction allows water, judged by what the wall clock shows: in an hour that a clock change repeats,
/// both of its times are in or out.
/// </summary>
internal sealed class AllowedHours(ImmutableArray<Hours> hours, MomentReader moments)
{
    private readonly List<(long From, long Until)> _windows = [];
    private int? _day;

    /// <summary>Whether some date had no such sun event, so that its hours could not be judged.</summary>
    public bool LackedSun { get; private set; }

    /// <summary>The first instant of a piece of a run outside the hours, in Unix seconds, or null.</summary>
    public long? FirstOutside(in WateredPiece piece)
    {
        var start = piece.Start;
        while (start < piece.End)
        {
            var end = EndOfOffset(start, piece.End);
            var offset = moments.Clock.OffsetAt(start);
            if (FirstUncovered(piece.Day, start + offset, end + offset) is { } wall) return wall - offset;
            start = end;
        }

        return null;
    }

    private long? FirstUncovered(int day, long from, long until)
    {
        if (_day != day) Fill(day);
        foreach (var window in _windows)
        {
            if (window.From > from) break;
            from = Math.Max(from, window.Until);
        }

        return from < until ? from : null;
    }

    /// <summary>The windows of a date and of those before and after it: one may reach over midnight.</summary>
    private void Fill(int day)
    {
        _day = day;
        _windows.Clear();
        foreach (var window in hours)
        {
            for (var each = day - 1; each <= day + 1; each++) _windows.Add(WindowOf(window, each));
        }

        _windows.Sort();
    }

    private (long From, long Until) WindowOf(Hours window, int day)
    {
        if (WallOf(window.From, day) is not { } from || WallOf(window.To, day) is not { } until) return WholeDay(day);
        if (until > from) return (from, until);
        return WallOf(window.To, day + 1) is { } next ? (from, next) : WholeDay(day);
    }

    /// <summary>Without the sun event nothing can be said against that date.</summary>
    private (long From, long Until) WholeDay(int day)
    {
        LackedSun = true;
        return ((long)day * ZoneClock.SecondsInDay, (day + 1L) * ZoneClock.SecondsInDay);
    }

    /// <summary>What the clock shows at a moment, in seconds since 1970-01-01 00:00 on it.</summary>
    private long? WallOf(Moment moment, int day) => moment is ClockMoment clock
        ? ((long)day * ZoneClock.SecondsInDay) + clock.SecondOfDay
        : moments.Read(moment, day).InstantOrNull is { } instant ? instant + moments.Clock.OffsetAt(instant) : null;

    /// <summary>The end of the stretch without a clock change that begins at an instant; a date holds one change at most.</summary>
    private long EndOfOffset(long start, long end)
    {
        var offset = moments.Clock.OffsetAt(start);
        if (moments.Clock.OffsetAt(end - 1) == offset) return end;
        var (same, other) = (start, end - 1);
        while (other - same > 1)
        {
            var middle = same + ((other - same) / 2);
            if (moments.Clock.OffsetAt(middle) == offset) same = middle;
            else other = middle;
        }

        return other;
    }
}
