using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit;

/// <summary>Compares what a log tells with the timetable, as both go by in order of time, so that the length of the log costs time and no memory.</summary>
public sealed class Auditor : IDisposable
{
    private readonly MeantRuns _meant;
    private readonly LogKnowledge _knowledge;
    private readonly AuditTally _tally;
    private readonly ZoneRecord[] _zones;
    private readonly HashSet<int> _open = [];

    private Auditor(Site site, LogEvent first, bool isNumbered, AuditOptions options)
    {
        var clock = new ZoneClock(site.TimeZone);
        _knowledge = new LogKnowledge(options.SilenceSeconds, isNumbered);
        _tally = new AuditTally(site);
        _meant = new MeantRuns(site, clock, (long)first.At);
        var ground = new AuditGround(site, options.ToleranceSeconds, _knowledge, clock);
        _zones = [.. site.Zones.Select(zone => new ZoneRecord(zone, ground, _tally))];
    }

    /// <summary>Audits a log.</summary>
    /// <param name="site">The site.</param>
    /// <param name="log">The log, whose rows were not read yet.</param>
    /// <param name="options">How exact it is to be.</param>
    /// <param name="inDevice">The timetable of the site whose switchings the device should have had.</param>
    /// <returns>The report; null where no row of the log could be used.</returns>
    public static AuditReport? Audit(Site site, LogReader log, AuditOptions options, Timetable inDevice)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(inDevice);
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(options);
        using var events = log.Events().GetEnumerator();
        if (!events.MoveNext()) return null;
        using var auditor = new Auditor(site, events.Current, log.IsNumbered, options);
        var isWhole = true;
        do isWhole = auditor.TryAdd(events.Current);
        while (isWhole && events.MoveNext());
        return auditor.Report(site, log, inDevice, isWhole);
    }

    /// <inheritdoc/>
    public void Dispose() => _meant.Dispose();

    /// <summary>Takes in the next row; false where too much was meant by then to go on.</summary>
    private bool TryAdd(LogEvent told)
    {
        _knowledge.Add(told);
        _tally.Add(told);
        _meant.Budget.Allow(Limits.AuditWorkPerRow);
        _meant.GoTo((long)told.At);
        while (_meant.TryTake(told.At, out var run))
        {
            _zones[run.Zone].Add(run);
            _zones[run.Zone].Settle(told.At, run.Start);
        }

        if (_meant.Budget.IsUsedUp) return false;

        if (told.Kind == LogKind.Boot) Restart(told);
        else if (told.Zone >= 0 && told.Kind is LogKind.Open or LogKind.Close) Switch(told);
        return true;
    }

    private void Restart(LogEvent told)
    {
        foreach (var zone in _open) Take(_zones[zone], told);
        _open.Clear();
    }

    private void Switch(LogEvent told)
    {
        var zone = _zones[told.Zone];
        Take(zone, told);
        if (zone.IsOpen) _open.Add(told.Zone);
        else _open.Remove(told.Zone);
    }

    private void Take(ZoneRecord zone, LogEvent told)
    {
        zone.Add(told);
        zone.Settle(told.At, _meant.NextStart);
    }

    private AuditReport Report(Site site, LogReader log, Timetable inDevice, bool isWhole)
    {
        while (isWhole && _meant.TryTakeLast(out var run))
        {
            _zones[run.Zone].Add(run);
            isWhole = !_meant.Budget.IsUsedUp;
        }

        foreach (var zone in _zones) zone.Finish();
        return new AuditReport(
            site,
            (long)_knowledge.First,
            (long)_knowledge.Last,
            _tally.Entries.First,
            _tally.Water,
            _tally.MeterLitres,
            AuditedList.Of(_tally.Lists, inDevice),
            inDevice.Horizon,
            [.. log.Bad],
            _tally.Rows,
            log.Doubled)
        {
            EntryCount = _tally.Entries.Count,
            Days = _tally.Days,
            NotAsMeant = _tally.NotAsMeant,
            NotKnown = _tally.NotKnown,
            BadCount = log.BadRows,
            HasMoreLists = _tally.HasMoreLists,
            IsAsMeant = _tally.IsAsMeant && isWhole,
            InPart = isWhole ? null : ComparedInPart.At(Math.Min((long)_knowledge.Last, _meant.NextStart), _meant.Count, _meant.Budget, site),
        };
    }
}

/// <summary>How exact an audit is to be.</summary>
/// <param name="ToleranceSeconds">Seconds by which a watering may begin or last otherwise and still be done; 0 or more.</param>
/// <param name="SilenceSeconds">Seconds without a row after which nothing is known, where rows are not numbered.</param>
public sealed record AuditOptions(long ToleranceSeconds = AuditOptions.DefaultTolerance, long SilenceSeconds = AuditOptions.DefaultSilence)
{
    /// <summary>A minute: most clocks are set to it, and controllers open one valve after the other.</summary>
    public const long DefaultTolerance = 60;

    /// <summary>An hour.</summary>
    public const long DefaultSilence = 3_600;
}
