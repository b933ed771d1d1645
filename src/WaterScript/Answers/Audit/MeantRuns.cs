using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit;

/// <summary>The runs of a site from the date on which a log begins, drawn as far as the log has come. Those of passes after the log's last date are none of them.</summary>
internal sealed class MeantRuns : IDisposable
{
    private readonly ZoneClock _clock;
    private readonly IEnumerator<Run> _runs;
    private readonly long _longestPass;
    private long _endOfDay = long.MinValue;
    private bool _hasNext;

    /// <param name="site">The site.</param>
    /// <param name="clock">Its clock.</param>
    /// <param name="from">When the log begins, in Unix seconds.</param>
    public MeantRuns(Site site, ZoneClock clock, long from)
    {
        (_clock, Counts) = (clock, new RunCounts(site));
        var first = CivilDate.FromDayNumber(clock.At(from).Day).ToLocalDate();
        var last = LocalDate.MaxIsoValue.PlusYears(-1);
        var until = first < last.PlusDays(-2 * Limits.HorizonDays) ? first.PlusDays(2 * Limits.HorizonDays) : last;
        var timetable = Timetable.Of(site, new Horizon(first, until));
        _longestPass = site.Schedules.Select(schedule => timetable.LongestSecondsOf(schedule.Index)).DefaultIfEmpty().Max();
        _runs = timetable.Runs().GetEnumerator();
        _hasNext = _runs.MoveNext();
        GoTo(from);
    }

    /// <summary>How many were drawn.</summary>
    public RunCounts Counts { get; }

    /// <summary>When the next starts that was not drawn, in Unix seconds.</summary>
    public long NextStart => _hasNext ? _runs.Current.Start : long.MaxValue;

    /// <summary>The log has come to a moment, in Unix seconds.</summary>
    public void GoTo(long moment)
    {
        if (moment >= _endOfDay) _endOfDay = _clock.StartOfDay(_clock.At(moment).Day + 1);
    }

    /// <summary>The next run that starts by then and is of a pass that starts on a date of the log; false where there is none, yet.</summary>
    public bool TryTake(decimal until, out Run run)
    {
        run = _hasNext ? _runs.Current : default;
        if (!_hasNext || run.Start > until || run.PassStart >= _endOfDay) return false;
        Advance();
        return true;
    }

    /// <summary>The next run of a pass that starts on a date of the log, wherever it is; false where there is none.</summary>
    public bool TryTakeLast(out Run run)
    {
        while (_hasNext && NextStart <= _endOfDay + _longestPass)
        {
            run = _runs.Current;
            Advance();
            if (run.PassStart < _endOfDay) return true;
        }

        run = default;
        return false;
    }

    /// <inheritdoc/>
    public void Dispose() => _runs.Dispose();

    private void Advance()
    {
        Counts.Add(_runs.Current.Schedule);
        _hasNext = _runs.MoveNext();
    }
}
