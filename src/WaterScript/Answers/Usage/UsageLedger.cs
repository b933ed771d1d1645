using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Answers.Usage;

/// <summary>
/// What zones and devices do on each local date of some dates. A zone that two schedules water at once is open once: its water belongs to the run that
/// was first. Watering is split at midnight; openings and starts count where they begin.
/// </summary>
internal sealed class UsageLedger
{
    /// <summary>Work of keeping one more entry.</summary>
    private const int WorkOfEntry = 20;

    private readonly Dictionary<(int Day, int Zone, int Schedule), UsageSums> _zones = [];
    private readonly Dictionary<(int Day, int Device), UsageSums> _devices = [];
    private readonly List<int> _scheduleOfRun = [];
    private readonly DatedPieces _pieces;
    private readonly DeviceTimes _deviceTimes;
    private readonly ZoneClock _clock;
    private readonly WorkBudget _budget;
    private readonly long[] _openUntil;
    private readonly int _first;
    private readonly int _end;

    private UsageLedger(Site site, Horizon horizon, WorkBudget budget)
    {
        _clock = new ZoneClock(site.TimeZone);
        _pieces = new DatedPieces(_clock);
        _deviceTimes = new DeviceTimes(site);
        _budget = budget;
        _openUntil = new long[site.Zones.Length];
        Array.Fill(_openUntil, long.MinValue);
        (_first, _end) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
    }

    /// <summary>What zones do, by date, zone and schedule.</summary>
    public IReadOnlyDictionary<(int Day, int Zone, int Schedule), UsageSums> Zones => _zones;

    /// <summary>What devices do, by date and device.</summary>
    public IReadOnlyDictionary<(int Day, int Device), UsageSums> Devices => _devices;

    /// <summary>Goes through the dates of a horizon.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates.</param>
    /// <param name="budget">Counts the work.</param>
    /// <exception cref="WorkUsedUpException">There is too much.</exception>
    public static UsageLedger Of(Site site, Horizon horizon, WorkBudget budget)
    {
        var ledger = new UsageLedger(site, horizon, budget);
        var timetable = Timetable.WithWhatIsUnderWay(site, horizon, budget);
        foreach (var opening in timetable.OpeningsOf(timetable.Runs().Select(ledger.Seen))) ledger.Add(opening);
        return ledger;
    }

    private Run Seen(Run run)
    {
        _scheduleOfRun.Add(run.Schedule);
        var from = Math.Max(run.Start, _openUntil[run.Zone]);
        _openUntil[run.Zone] = Math.Max(_openUntil[run.Zone], run.End);
        foreach (var (day, start, end) in Dated(from, run.End)) SumsOf(_zones, (day, run.Zone, run.Schedule)).Seconds += end - start;
        return run;
    }

    private void Add(in Opening opening)
    {
        if (opening.Device >= 0)
        {
            AddDevice(opening);
            return;
        }

        var date = _clock.At(opening.From).Day;
        if (date >= _first && date < _end) SumsOf(_zones, (date, opening.Zone, _scheduleOfRun[(int)opening.Runs[0] - 1])).Openings++;
    }

    private void AddDevice(in Opening opening)
    {
        var (from, to, isStart) = _deviceTimes.Add(opening);
        foreach (var (day, start, end) in Dated(from, to)) SumsOf(_devices, (day, opening.Device)).Seconds += end - start;
        var date = _clock.At(from).Day;
        if (isStart && date >= _first && date < _end) SumsOf(_devices, (date, opening.Device)).Openings++;
    }

    private IEnumerable<(int Day, long From, long Until)> Dated(long from, long until) =>
        _pieces.Of(from, until).Where(piece => piece.Day >= _first && piece.Day < _end);

    private UsageSums SumsOf<TKey>(Dictionary<TKey, UsageSums> of, TKey key)
        where TKey : notnull
    {
        if (of.TryGetValue(key, out var sums)) return sums;
        _budget.Spend(WorkOfEntry);
        return of[key] = new UsageSums();
    }
}

/// <summary>What is added up.</summary>
internal sealed class UsageSums
{
    /// <summary>Seconds in which it is on.</summary>
    public long Seconds { get; set; }

    /// <summary>How often it opens, or starts.</summary>
    public long Openings { get; set; }
}
