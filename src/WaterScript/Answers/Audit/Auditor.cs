using System.Collections.Immutable;
using WaterScript.Answers.Audit.Clocks;
using WaterScript.Answers.Audit.Water;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit;

/// <summary>Compares what a log says with the timetable, as both go by in order of time, so that the length of the log costs time and no memory.</summary>
internal sealed class Auditor : IDisposable
{
    private readonly MeantRuns _meant;
    private readonly LogKnowledge _knowledge;
    private readonly AuditTally _tally;
    private readonly ZoneRecord[] _zones;
    private readonly HashSet<int> _open = [];
    private readonly WaterMeter _meter;
    private readonly long _tolerance;
    private long _meantUntil = long.MinValue;

    private Auditor(Site site, Func<ZoneClock, long, MeantRuns> meant, LogEvent first, bool isNumbered, AuditOptions options)
    {
        var clock = new ZoneClock(site.TimeZone);
        _tolerance = options.ToleranceSeconds;
        _knowledge = new LogKnowledge(options.SilenceSeconds, isNumbered);
        _tally = new AuditTally(site);
        _meant = meant(clock, (long)first.At);
        _meter = new WaterMeter(site, _knowledge, _meant.Budget);
        var ground = new AuditGround(site, options.ToleranceSeconds, _knowledge, clock, _meter, options.VolumePercent / 100m);
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
        return Audit(site, (clock, from) => new MeantRuns(site, clock, from), log, options, () => AuditedList.OwnOf(site, inDevice.Horizon), inDevice.Horizon,
            rows => CorrectedLog.Of(rows, site, options.ToleranceSeconds));
    }

    /// <summary>Audits a log against a timetable that is deployed.</summary>
    /// <param name="deployed">The timetable, of which no run was read yet; it is read to its end, and verified.</param>
    /// <param name="log">The log, of the site of the timetable, whose rows were not read yet.</param>
    /// <param name="options">How exact it is to be.</param>
    /// <returns>The report; null where no row of the log could be used.</returns>
    /// <exception cref="DeployedException">The timetable is not as it was compiled.</exception>
    public static AuditReport? Audit(DeployedTimetable deployed, LogReader log, AuditOptions options)
    {
        ArgumentNullException.ThrowIfNull(deployed);
        var report = Audit(deployed.Site, (clock, from) => new MeantRuns(deployed, clock, from), log, options, Own, deployed.Horizon);
        deployed.Finish();
        return report is null ? null : report with { IsOfDeployed = true };

        ImmutableArray<(string? Hash, Controller? Controller)>? Own()
        {
            deployed.Finish();
            return [.. deployed.HashesOfSwitchings()];
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _meant.Dispose();

    private static AuditReport? Audit(
        Site site,
        Func<ZoneClock, long, MeantRuns> meant,
        LogReader log,
        AuditOptions options,
        Func<ImmutableArray<(string? Hash, Controller? Controller)>?> own,
        Horizon listDates,
        Func<IEnumerator<LogEvent>, CorrectedLog>? correct = null)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(options);
        using var rows = log.Events().GetEnumerator();
        var corrected = correct?.Invoke(rows);
        using var events = (corrected?.Events() ?? Rest(rows)).GetEnumerator();
        if (!events.MoveNext()) return null;
        using var auditor = new Auditor(site, meant, events.Current, log.IsNumbered, options);
        var isWhole = true;
        do isWhole = auditor.TryAdd(events.Current);
        while (isWhole && events.MoveNext());
        var report = auditor.Report(site, log, own, listDates, isWhole);
        return corrected?.Clock is { } clock ? report with { Clock = clock, IsAsMeant = false } : report;
    }

    private static IEnumerable<LogEvent> Rest(IEnumerator<LogEvent> rows)
    {
        while (rows.MoveNext()) yield return rows.Current;
    }

    /// <summary>Takes in the next row; false where too much was meant by then to go on.</summary>
    private bool TryAdd(LogEvent logged)
    {
        _knowledge.Add(logged);
        _tally.Add(logged);
        _meant.Budget.Allow(Limits.WorkPerRow);
        _meant.GoTo((long)logged.At);
        while (_meant.TryTake(logged.At, out var run))
        {
            _zones[run.Zone].Add(run);
            _zones[run.Zone].Settle(logged.At, run.Start);
            _meantUntil = Math.Max(_meantUntil, run.End + run.Overlap);
        }

        if (_meant.Budget.IsUsedUp || !TryReadMeter(logged)) return false;
        if (logged.Kind == LogKind.Boot) Restart(logged);
        else if (logged.Zone >= 0 && logged.Kind is LogKind.Open or LogKind.Close) Switch(logged);
        return true;
    }

    private bool TryReadMeter(LogEvent logged)
    {
        try
        {
            _meter.Read(logged, _meantUntil);
            return true;
        }
        catch (WorkUsedUpException)
        {
            return false;
        }
    }

    private void Restart(LogEvent logged)
    {
        foreach (var zone in _open) Take(_zones[zone], logged);
        _open.Clear();
    }

    private void Switch(LogEvent logged)
    {
        var zone = _zones[logged.Zone];
        Take(zone, logged);
        if (zone.IsOpen) _open.Add(logged.Zone);
        else _open.Remove(logged.Zone);
    }

    private void Take(ZoneRecord zone, LogEvent logged)
    {
        zone.Add(logged);
        zone.Settle(logged.At, _meant.NextStart);
    }

    private AuditReport Report(Site site, LogReader log, Func<ImmutableArray<(string? Hash, Controller? Controller)>?> own, Horizon listDates, bool isWhole)
    {
        while (isWhole && _meant.TryTakeLast(out var run))
        {
            _zones[run.Zone].Add(run);
        }

        isWhole &= !_meant.Budget.IsUsedUp;

        foreach (var zone in _zones) zone.Finish();
        _meter.Finish();
        return new AuditReport(
            site,
            (long)_knowledge.First,
            (long)_knowledge.Last,
            _tally.Entries.First,
            _tally.Water(_meter),
            _tally.MeterLitres,
            AuditedList.Of(_tally.Lists, own),
            listDates,
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
            Tolerance = _tolerance,
            Counts = _tally.Counts,
            MeantCount = _tally.MeantCount,
            Leaks = new AuditList<WaterLeak>([.. _meter.Leaks], _meter.LeakCount),
            IsAsMeant = _tally.IsAsMeant && isWhole && _meter.LeakCount == 0,
            InPart = isWhole ? null : ComparedInPart.At(Math.Min((long)_knowledge.Last, _meant.NextStart), _meant.Count, _meant.Budget, site),
        };
    }
}

/// <summary>How exact an audit is to be.</summary>
/// <param name="ToleranceSeconds">Seconds by which a watering may begin or last otherwise and still be done; 0 or more.</param>
/// <param name="SilenceSeconds">Seconds without a row after which nothing is known, where rows are not numbered.</param>
/// <param name="VolumePercent">Percent by which a metered volume may differ from what flow and time give.</param>
internal sealed record AuditOptions(
    long ToleranceSeconds = AuditOptions.DefaultTolerance,
    long SilenceSeconds = AuditOptions.DefaultSilence,
    int VolumePercent = AuditOptions.DefaultVolumePercent)
{
    /// <summary>A fifth: flows that a file names are mostly those of the maker's table, and pressure is not the table's.</summary>
    public const int DefaultVolumePercent = 20;

    /// <summary>A minute: most clocks are set to it, and controllers open one valve after the other.</summary>
    public const long DefaultTolerance = 60;

    /// <summary>An hour.</summary>
    public const long DefaultSilence = 3_600;
}
