using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Calendars;

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

    /// <summary>The first instant of a part of a date outside the hours, in Unix seconds, or null.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    /// <param name="from">First instant of the part, in Unix seconds.</param>
    /// <param name="until">The instant after its last.</param>
    public long? FirstOutside(int day, long from, long until)
    {
        foreach (var outside in Outside(day, from, until)) return outside.From;
        return null;
    }

    /// <summary>
    /// The longest time at a stretch that the hours allow to what starts at an instant, if it started at any other time of that date; in seconds.
    /// </summary>
    public long LongestFor(long start)
    {
        var day = moments.Clock.At(start).Day;
        var (from, until) = (moments.Clock.StartOfDay(day), moments.Clock.StartOfDay(day + 2));
        var longest = 0L;
        foreach (var outside in Outside(day, from, until))
        {
            longest = Math.Max(longest, outside.From - from);
            from = outside.Until;
        }

        return Math.Max(longest, until - from);
    }

    /// <summary>The times outside the hours within a part of a date, in order; of a time that a clock change touches, the parts before and after it.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    /// <param name="from">First instant of the part, in Unix seconds.</param>
    /// <param name="until">The instant after its last.</param>
    public IEnumerable<(long From, long Until)> Outside(int day, long from, long until)
    {
        while (from < until)
        {
            var end = EndOfOffset(from, until);
            var offset = moments.Clock.OffsetAt(from);
            foreach (var (start, stop) in Uncovered(day, from + offset, end + offset)) yield return (start - offset, stop - offset);
            from = end;
        }
    }

    private IEnumerable<(long From, long Until)> Uncovered(int day, long from, long until)
    {
        if (_day != day) Fill(day);
        foreach (var window in _windows)
        {
            if (window.From >= until) break;
            if (window.From > from) yield return (from, window.From);
            from = Math.Max(from, window.Until);
        }

        if (from < until) yield return (from, until);
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
