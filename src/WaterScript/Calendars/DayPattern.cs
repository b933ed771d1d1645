using System.Collections.Immutable;
using NodaTime;
using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>
/// The days on which something is due: within a union of days, within a season, and on none of the days taken away; nothing
/// before the site's <c>effective</c> date. All days are days since 1970-01-01.
/// </summary>
/// <remarks>
/// Days are worked out as bits, a stretch of some years at a time, when first asked for; asking for days in order costs
/// nothing else. What it answers never changes; it may be used from several threads.
/// </remarks>
internal sealed class DayPattern
{
    private const int WindowShift = 10;
    private const int WindowLength = 1 << WindowShift;

    private readonly int _effective;
    private readonly DayMarker _marker;
    private readonly ImmutableArray<ImmutableArray<DaySet>> _within;
    private readonly ImmutableArray<DaySet> _except;
    private DayBits _window = new(0, 0);

    private DayPattern(int effective, DayMarker marker, ImmutableArray<ImmutableArray<DaySet>> within, ImmutableArray<DaySet> except)
    {
        _effective = effective;
        _marker = marker;
        _within = within;
        _except = except;
    }

    /// <summary>The days of a schedule. Without a line of days it is every day of its season, as for one that follows another schedule.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="effective">The site's first date.</param>
    public static DayPattern Of(Schedule schedule, LocalDate effective) =>
        Of(schedule.Days, schedule.Season, schedule.Except, effective);

    /// <summary>Days within a union, within a season, without others.</summary>
    /// <param name="days">A union; empty for every day.</param>
    /// <param name="season">Bounds, which intervals count from; null for none: then they count from <paramref name="effective"/>.</param>
    /// <param name="except">Days taken away, a union.</param>
    /// <param name="effective">The first date on which anything can be due.</param>
    public static DayPattern Of(
        ImmutableArray<DaySet> days, Season? season, ImmutableArray<DaySet> except, LocalDate effective)
    {
        var first = CivilDate.DayNumberOf(effective);
        ImmutableArray<ImmutableArray<DaySet>> within = season is null ? [] : [[season.Span]];
        var pattern = new DayPattern(first, new DayMarker(season, first), within, except);
        return pattern.NarrowedTo(days);
    }

    /// <summary>The same days as far as they are in another union too; intervals in it count from the same day.</summary>
    /// <param name="days">A union; empty takes nothing away.</param>
    public DayPattern NarrowedTo(ImmutableArray<DaySet> days) =>
        days.IsEmpty ? this : new(_effective, _marker, _within.Add(days), _except);

    /// <summary>Whether a day is due.</summary>
    public bool IsDue(int day) => WindowOver(day).Contains(day);

    /// <summary>The first due day from <paramref name="from"/> on that is before <paramref name="until"/>, or null.</summary>
    public int? NextDue(int from, int until)
    {
        var day = Math.Max(from, _effective);
        while (day < until)
        {
            var window = WindowOver(day);
            if (window.Next(day) is { } due)
                return due < until ? due : null;
            day = window.End;
        }
        return null;
    }

    /// <summary>The due days from <paramref name="from"/> on that are before <paramref name="until"/>, in order.</summary>
    public IEnumerable<int> DueDays(int from, int until)
    {
        for (var day = NextDue(from, until); day is { } due; day = NextDue(due + 1, until))
            yield return due;
    }

    /// <summary>The due days of a stretch as bits.</summary>
    /// <param name="first">First day.</param>
    /// <param name="length">Number of days, 0 or more; the calendar repeats after <see cref="CivilDate.DaysInCycle"/>.</param>
    public DayBits Over(int first, int length)
    {
        var due = new DayBits(first, length);
        due.MarkEvery(1, _effective, due.End - 1);
        foreach (var union in _within)
            due.IntersectWith(_marker.Union(union, first, length));
        if (!_except.IsEmpty)
            due.ExceptWith(_marker.Union(_except, first, length));
        return due;
    }

    private DayBits WindowOver(int day)
    {
        var window = _window;
        if (!window.Covers(day))
            _window = window = Over(day >> WindowShift << WindowShift, WindowLength);
        return window;
    }
}
