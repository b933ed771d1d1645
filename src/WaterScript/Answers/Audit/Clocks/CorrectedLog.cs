using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit.Clocks;

/// <summary>The rows of a log by the site's clock: its own clock is measured on the first of them, before any is compared.</summary>
internal sealed class CorrectedLog
{
    /// <summary>So many rows are held to measure the clock.</summary>
    public const int MostRows = 65_536;

    /// <summary>The work of measuring is that of a check by so many.</summary>
    private const int ShareOfCheck = 4;

    private const int WorkOfRun = 20;

    private readonly IEnumerator<LogEvent> _events;
    private readonly List<LogEvent> _first = [];
    private readonly ZoneClock _clock;

    private CorrectedLog(IEnumerator<LogEvent> events, Site site, long tolerance)
    {
        (_events, _clock) = (events, new ZoneClock(site.TimeZone));
        while (_first.Count < MostRows && _events.MoveNext()) _first.Add(_events.Current);
        if (_first.Count > 0) Clock = Measured(site, tolerance);
    }

    /// <summary>The clock of the log; null where it is not off.</summary>
    public LogClock? Clock { get; }

    /// <summary>Reads the first rows of a log, and measures its clock.</summary>
    public static CorrectedLog Of(IEnumerator<LogEvent> events, Site site, long tolerance) => new(events, site, tolerance);

    /// <summary>The rows in order; they can be gone through once.</summary>
    public IEnumerable<LogEvent> Events()
    {
        var last = decimal.MinValue;
        for (var index = 0; index < _first.Count; index++)
        {
            yield return Corrected(_first[index], ref last);
        }

        _first.Clear();
        while (_events.MoveNext()) yield return Corrected(_events.Current, ref last);
    }

    private LogEvent Corrected(LogEvent logged, ref decimal last)
    {
        if (Clock is not { } log) return logged;
        last = Math.Max(last, logged.At - log.AheadAt(logged.At, _clock.OffsetAt((long)logged.At)));
        return logged with { At = last };
    }

    private LogClock? Measured(Site site, long tolerance)
    {
        var openings = _first.Where(logged => logged.Kind == LogKind.Open && logged.Zone >= 0 && logged.Why is null)
            .Select(logged => (logged.Zone, logged.At)).ToList();
        if (openings.Count == 0) return null;
        return new ClockMeasure(_clock, Meant(site, (long)openings[0].At, (long)openings[^1].At), tolerance).Of(openings);
    }

    /// <summary>When openings of each zone were meant to begin, as far as there is work for it.</summary>
    private List<long>[] Meant(Site site, long from, long to)
    {
        var meant = site.Zones.Select(_ => new List<long>()).ToArray();
        var ends = new long[meant.Length];
        var budget = new WorkBudget(Limits.CheckWorkOf(site.SourceLength) / ShareOfCheck);
        var dates = new Horizon(CivilDate.FromDayNumber(_clock.At(from).Day - 1).ToLocalDate(), CivilDate.FromDayNumber(_clock.At(to).Day + 2).ToLocalDate());
        try
        {
            foreach (var run in Timetable.Of(site, dates, budget).Runs())
            {
                budget.Spend(WorkOfRun);
                if (run.Start > ends[run.Zone] || meant[run.Zone].Count == 0) meant[run.Zone].Add(run.Start);
                ends[run.Zone] = Math.Max(ends[run.Zone], run.End + run.Overlap);
            }
        }
        catch (WorkUsedUpException)
        {
            // The clock is measured as far as the runs came.
        }

        return meant;
    }
}
