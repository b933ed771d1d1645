using System.Collections.Immutable;
using WaterScript.Answers.Audit.Clocks;
using WaterScript.Answers.Audit.Lists;
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
    private readonly Site _site;
    private readonly AuditOptions _options;
    private readonly ZoneClock _clock;
    private readonly MeantRuns _meant;
    private readonly LogKnowledge _knowledge;
    private readonly AuditTally _tally;
    private readonly ZoneRecord[] _zones;
    private readonly HashSet<int> _open = [];
    private readonly WaterMeter _meter;
    private readonly ListsInDevice? _lists;
    private readonly long _tolerance;
    private long _meantUntil = long.MinValue;

    private Auditor(
        Site site, Func<ZoneClock, long, MeantRuns> meant, LogEvent first, bool isNumbered, AuditOptions options, ListsInDevice? lists)
    {
        _lists = lists;
        _clock = new ZoneClock(site.TimeZone);
        (_site, _options) = (site, options);
        _tolerance = options.ToleranceSeconds;
        _knowledge = new LogKnowledge(options.SilenceSeconds, isNumbered, site.Controllers.Length);
        _tally = new AuditTally(site);
        _meant = meant(_clock, FirstOf((long)first.At, options));
        _meter = new WaterMeter(site, _knowledge, _meant.Budget);
        var ground = new AuditGround(site, options.ToleranceSeconds, _knowledge, _clock, _meter, options.VolumePercent / 100m);
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

        ImmutableArray<OwnList>? Own()
        {
            deployed.Finish();
            return [.. deployed.HashesOfSwitchings().Select(list => new OwnList(list.Hash, list.Controller))];
        }
    }

    /// <summary>Audits a log against the lists that the device had, of which each row chooses its own.</summary>
    /// <param name="site">The site whose zones they are about.</param>
    /// <param name="lists">The lists.</param>
    /// <param name="log">The log, of that site, whose rows were not read yet.</param>
    /// <param name="options">How exact it is to be.</param>
    /// <returns>The report; null where no row of the log could be used.</returns>
    public static AuditReport? Audit(Site site, IEnumerable<GivenList> lists, LogReader log, AuditOptions options)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(options);
        var given = ListsInDevice.InOrder(lists);
        var chosen = new ListsInDevice(given, site.Controllers.Length, options.ToleranceSeconds);
        var dates = new Horizon(given.Min(list => list.Dates.From), given.Max(list => list.Dates.Until));
        var report = Audit(site, (clock, from) => new MeantRuns(site, given, clock, from), log, options,
            () => [.. given.Select(list => new OwnList(list.Hash, list.Controller, list))], dates, lists: chosen);
        return report is null ? null : report with { Missed = chosen.Missed, AreListsGiven = true, IsAsMeant = report.IsAsMeant && chosen.Missed.IsEmpty };
    }

    /// <inheritdoc/>
    public void Dispose() => _meant.Dispose();

    private static AuditReport? Audit(
        Site site,
        Func<ZoneClock, long, MeantRuns> meant,
        LogReader log,
        AuditOptions options,
        Func<ImmutableArray<OwnList>?> own,
        Horizon listDates,
        Func<IEnumerator<LogEvent>, CorrectedLog>? correct = null,
        ListsInDevice? lists = null)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(options);
        using var rows = log.Events().GetEnumerator();
        var corrected = correct?.Invoke(rows);
        using var events = (corrected?.Events() ?? Rest(rows)).GetEnumerator();
        if (!events.MoveNext()) return null;
        using var auditor = new Auditor(site, meant, events.Current, log.IsNumbered, options, lists);
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

    /// <summary>From when on something may be meant: the first row, or the first date that is asked for.</summary>
    private long FirstOf(long firstRow, AuditOptions options) =>
        options.Window is { } window ? Math.Min(firstRow, _clock.StartOfDay(CivilDate.DayNumberOf(window.From))) : firstRow;

    /// <summary>Takes in the next row; false where too much was meant by then to go on.</summary>
    private bool TryAdd(LogEvent logged)
    {
        _knowledge.Add(logged);
        _tally.Add(logged);
        _lists?.Add(logged);
        _meant.Budget.Allow(Limits.WorkPerRow);
        _meant.GoTo((long)logged.At);
        while (_meant.TryTake(logged.At, out var run))
        {
            if (!IsCompared(run)) continue;
            _zones[run.Zone].Add(run);
            _zones[run.Zone].Settle(logged.At, run.Start);
            _meantUntil = Math.Max(_meantUntil, run.End + run.Overlap);
        }

        if (_meant.Budget.IsUsedUp || !TryReadMeter(logged)) return false;
        if (logged.Kind == LogKind.Boot) Restart(logged);
        else if (logged.Zone >= 0 && logged.Kind is LogKind.Open or LogKind.Close) Switch(logged);
        return true;
    }

    /// <summary>
    /// Whether the run that was drawn is of the controller that is looked at, and of the list that it had; no device logs what is done by hand.
    /// </summary>
    private bool IsCompared(in Run run)
    {
        if (_site.Zones[run.Zone].Controller?.Index is not { } controller) return false;
        return (_options.Controller is not { } only || controller == only.Index) && (_lists is null || _lists.IsMeant(run, _meant.List, controller));
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
        int[] closed = [.. _open.Where(zone => logged.Controller is LogEvent.NoController || _site.Zones[zone].Controller?.Index == logged.Controller)];
        foreach (var zone in closed) Take(_zones[zone], logged);
        _open.ExceptWith(closed);
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

    private AuditReport Report(Site site, LogReader log, Func<ImmutableArray<OwnList>?> own, Horizon listDates, bool isWhole)
    {
        if (_options.Window is { } window) _meant.GoTo(_clock.StartOfDay(CivilDate.DayNumberOf(window.Until)) - 1);
        while (isWhole && _meant.TryTakeLast(out var run))
        {
            if (IsCompared(run)) _zones[run.Zone].Add(run);
        }

        isWhole &= !_meant.Budget.IsUsedUp;

        foreach (var zone in _zones) zone.Finish();
        _meter.Finish();
        return new AuditReport(
            site,
            (long)_knowledge.First,
            (long)_knowledge.Last,
            _tally.Entries.First,
            [.. _tally.Water(_meter).Where(water => _options.Controller is not { } only || water.Zone.Controller?.Index == only.Index)],
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
            IsAsMeant = _tally.IsAsMeant && isWhole && _meter.LeakCount == 0 && !log.IsAnyMissed,
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
    /// <summary>Only what this controller waters; null for all.</summary>
    public Controller? Controller { get; init; }

    /// <summary>Dates of which everything that was meant has to be seen, also where the log has no row; null for those of the log alone.</summary>
    public Horizon? Window { get; init; }

    /// <summary>A fifth: flows that a file names are mostly those of the maker's table, and pressure is not the table's.</summary>
    public const int DefaultVolumePercent = 20;

    /// <summary>A minute: most clocks are set to it, and controllers open one valve after the other.</summary>
    public const long DefaultTolerance = 60;

    /// <summary>An hour.</summary>
    public const long DefaultSilence = 3_600;
}
