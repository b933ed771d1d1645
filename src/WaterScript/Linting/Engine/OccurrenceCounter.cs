using WaterScript.Diagnostics;

namespace WaterScript.Linting.Engine;

/// <summary>One cause, counted while it goes on happening: the first time, the last, how often, and on how many dates.</summary>
internal sealed class OccurrenceCounter
{
    private readonly HashSet<int> _days = [];
    private long _first = long.MaxValue;
    private long _last = long.MinValue;
    private long _times;

    /// <summary>Whether it has happened.</summary>
    public bool Happened => _times > 0;

    /// <summary>Counts one time.</summary>
    /// <param name="instant">When, in Unix seconds.</param>
    /// <param name="context">Knows the date.</param>
    /// <returns>Whether no earlier time was counted before.</returns>
    public bool Add(long instant, LintContext context) => Add(instant, context.DayOf(instant));

    /// <summary>Counts one time on a local date.</summary>
    public bool Add(long instant, int day)
    {
        var isFirst = instant < _first;
        if (isFirst) _first = instant;
        _last = Math.Max(_last, instant);
        _times++;
        _days.Add(day);
        return isFirst;
    }

    /// <summary>Says when it happens, in a finding whose details are in place; of a manual schedule too.</summary>
    public Finding ToldIn(Finding finding, LintContext context) => context.Happening(finding, _first, _last, _times, _days.Count);

    /// <summary>When it happens, by the site's clock.</summary>
    public Occurrences Happens(LintContext context) => new(context.ClockAt(_first), context.ClockAt(_last), _times, _days.Count);
}
