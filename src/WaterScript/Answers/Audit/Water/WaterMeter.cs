using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Answers.Audit.Water;

/// <summary>
/// Shares out what a meter of all went on by from one reading to the next among the valves that were open meanwhile, by their flows; what it went on
/// by with none open is a leak.
/// </summary>
internal sealed class WaterMeter(Site site, LogKnowledge knowledge, WorkBudget budget)
{
    /// <summary>Leaks that are listed.</summary>
    private const int MostLeaks = 50;

    private readonly Dictionary<int, Flowing> _open = [];
    private readonly List<Flowing> _sinceReading = [];
    private readonly List<WaterLeak> _leaks = [];
    private readonly decimal?[] _litres = new decimal?[site.Zones.Length];
    private LogEvent? _reading;
    private WaterLeak? _growing;

    /// <summary>How many leaks there are.</summary>
    public long LeakCount { get; private set; }

    /// <summary>The first of them, up to what people are shown.</summary>
    public IReadOnlyList<WaterLeak> Leaks => _leaks;

    /// <summary>What a zone took by the meter of all; null where that is not known.</summary>
    public decimal? LitresOf(Zone zone) => _litres[zone.Index];

    /// <summary>Takes in what a row shows, before what it opens or closes.</summary>
    /// <param name="logged">The row.</param>
    /// <param name="meantUntil">When the last watering that was meant by then ends, in Unix seconds.</param>
    /// <exception cref="WorkUsedUpException">Too many valves are open at too many readings.</exception>
    public void Read(LogEvent logged, decimal meantUntil)
    {
        if (logged.Litres is { } litres && logged.Kind != LogKind.Open) AddOwn(logged, litres);
        if (logged.Meter is not { } shown) return;
        budget.Spend(_sinceReading.Count);
        foreach (var flowing in _open.Values) flowing.Seconds = logged.At - flowing.From;
        // A meter that shows less than before was set back, or is another.
        if (_reading is { } before && shown >= before.Meter) GoOn(before, logged, shown - before.Meter.Value, meantUntil);
        Begin(logged);
    }

    /// <summary>A valve opens, of which a reading in the same row knows nothing yet.</summary>
    public MeteredVolume Open(LogEvent logged)
    {
        EndLeak();
        var flowing = new Flowing(logged.Zone, logged.At);
        if (logged.Litres is { } litres) flowing.Volume.AddOwn(litres);
        _open[logged.Zone] = flowing;
        _sinceReading.Add(flowing);
        return flowing.Volume;
    }

    /// <summary>A valve closes, or nothing more is known of it.</summary>
    public void Close(int zone, decimal at)
    {
        if (_open.Remove(zone, out var flowing)) flowing.Seconds = at - flowing.From;
    }

    /// <summary>The log has ended.</summary>
    public void Finish() => EndLeak();

    private void Begin(LogEvent reading)
    {
        _reading = reading;
        _sinceReading.Clear();
        foreach (var flowing in _open.Values)
        {
            (flowing.From, flowing.Seconds) = (reading.At, 0);
            _sinceReading.Add(flowing);
        }
    }

    private void GoOn(LogEvent before, LogEvent now, decimal litres, decimal meantUntil)
    {
        _sinceReading.RemoveAll(flowing => flowing.Seconds <= 0);
        if (_sinceReading.Count > 0) ShareOut(before, now, litres);
        else if (litres > 0 && IsUnexplained(before, now, meantUntil)) Leak(before.At, now, litres);
    }

    /// <summary>
    /// In a silence without a row something may have run that was meant to; rows that are missing may be of anything, and what somebody waters by hand
    /// has none.
    /// </summary>
    private bool IsUnexplained(LogEvent before, LogEvent now, decimal meantUntil) =>
        !site.Zones.Any(zone => zone.IsHandWatered) && (knowledge.IsKnown(before.At, now.At) || (!knowledge.IsNumbered && meantUntil <= before.At));

    private void ShareOut(LogEvent before, LogEvent now, decimal litres)
    {
        // Of several supplies nobody knows which one the meter is of.
        if (site.Supplies.Length > 1 || (knowledge.IsNumbered && !knowledge.IsKnown(before.At, now.At))) return;
        var whole = _sinceReading.Sum(WaterOf);
        foreach (var flowing in _sinceReading)
        {
            if (litres == 0 || _sinceReading.Count == 1) Give(flowing, litres);
            else if (WaterOf(flowing) is { } own && whole > 0 && _sinceReading.TrueForAll(other => WaterOf(other) is not null))
                Give(flowing, litres * own / whole.Value);
        }
    }

    private decimal? WaterOf(Flowing flowing) => site.Zones[flowing.Zone].LitresPerMinute * flowing.Seconds;

    private void Give(Flowing flowing, decimal litres)
    {
        if (flowing.Volume.IsOwn) return;
        flowing.Volume.AddShare(litres, flowing.Seconds);
        _litres[flowing.Zone] = (_litres[flowing.Zone] ?? 0) + litres;
    }

    private void AddOwn(LogEvent logged, decimal litres)
    {
        if (logged.Zone >= 0 && _open.TryGetValue(logged.Zone, out var flowing)) flowing.Volume.AddOwn(litres);
        else if (logged.Kind != LogKind.Close && _open.Count == 0 && litres > 0) Leak(logged.At, logged, litres);
    }

    private void Leak(decimal since, LogEvent shown, decimal litres) => _growing = _growing is { } leak
        ? leak with { Until = (long)shown.At, Litres = leak.Litres + litres, Last = shown.Place }
        : new WaterLeak((long)since, (long)shown.At, litres, shown.Place, shown.Place);

    private void EndLeak()
    {
        if (_growing is { Litres: >= MeteredWatering.LeastLitres } leak && LeakCount++ < MostLeaks) _leaks.Add(leak);
        _growing = null;
    }

    /// <summary>A valve that was open since the last reading.</summary>
    private sealed class Flowing(int zone, decimal from)
    {
        public int Zone => zone;

        public decimal From { get; set; } = from;

        public decimal Seconds { get; set; }

        public MeteredVolume Volume { get; } = new();
    }
}
