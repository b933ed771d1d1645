using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Comparison;

/// <summary>Holds what a log tells against the timetable.</summary>
public sealed class Auditor
{
    /// <summary>A remark about no zone in particular is about all of a pass.</summary>
    private const int AllZones = -1;

    private readonly Site _site;
    private readonly long _tolerance;
    private readonly LogHistory _history;
    private readonly ZoneClock _clock;
    private readonly HashSet<Actual> _used = new(ReferenceEqualityComparer.Instance);

    private Auditor(Site site, IReadOnlyList<LogEvent> events, AuditOptions options)
    {
        _site = site;
        _tolerance = options.ToleranceSeconds;
        _history = new LogHistory(events, options.SilenceSeconds);
        _clock = new ZoneClock(site.TimeZone);
    }

    /// <summary>Audits a log.</summary>
    /// <param name="site">The site.</param>
    /// <param name="log">A log with at least one row that could be used.</param>
    /// <param name="options">How exact it is to be.</param>
    /// <param name="inDevice">The timetable of the site whose switchings the device should have had.</param>
    public static AuditReport Audit(Site site, LogReader log, AuditOptions options, Timetable inDevice)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(inDevice);
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(options);
        var events = log.Events;
        var auditor = new Auditor(site, events, options);
        var (first, last) = ((long)events[0].At, (long)events[^1].At);
        var entries = auditor.Entries(new Horizon(auditor.DateOf(first), auditor.DateOf(last).PlusDays(1)));
        return new AuditReport(
            site,
            first,
            last,
            entries,
            [.. site.Zones.Where(zone => !zone.IsSpare).Select(zone => auditor.WaterOf(zone, entries, events))],
            Metered(events),
            AuditedList.Of(events.Select(entry => entry.List).OfType<string>().Distinct(StringComparer.OrdinalIgnoreCase), inDevice),
            inDevice.Horizon,
            [.. log.Bad],
            events.Count,
            log.Doubled);
    }

    private LocalDate DateOf(long instant) => CivilDate.FromDayNumber(_clock.At(instant).Day).ToLocalDate();

    private ImmutableArray<AuditEntry> Entries(Horizon horizon)
    {
        var planned = Planned(horizon).GroupBy(opening => opening.Zone).ToDictionary(zone => zone.Key, zone => zone.ToList());
        var actual = _history.Actuals.ToLookup(each => each.Zone);
        var entries = _site.Zones.SelectMany(zone => OfZone(zone, planned.GetValueOrDefault(zone.Index) ?? [], [.. actual[zone.Index]]));
        return [.. entries.OrderBy(entry => entry.From).ThenBy(entry => entry.Zone.Index)];
    }

    private List<Meant> Planned(Horizon horizon)
    {
        var timetable = Timetable.Of(_site, horizon);
        var runs = new Dictionary<long, Run>();
        IEnumerable<Run> Noted()
        {
            foreach (var run in timetable.Runs())
            {
                runs[run.Number] = run;
                yield return run;
            }
        }

        return [.. timetable.OpeningsOf(Noted()).Where(opening => opening.Zone >= 0).Select(opening => Meant.Of(opening, runs[opening.Runs[0]]))];
    }

    private IEnumerable<AuditEntry> OfZone(Zone zone, List<Meant> planned, ImmutableArray<Actual> actuals)
    {
        var found = new Actual?[planned.Count];
        Match(planned, actuals, found, (meant, actual) => Math.Abs(actual.From - meant.From) <= _tolerance);
        Match(planned, actuals, found, (meant, actual) => actual.From <= meant.To && Math.Max(actual.To, actual.From) >= meant.From - _tolerance);
        for (var index = 0; index < planned.Count; index++) yield return Judge(zone, planned[index], found[index], actuals);
        foreach (var actual in actuals.Where(actual => !_used.Contains(actual)))
        {
            var from = (long)actual.From;
            yield return new AuditEntry(
                actual.IsByHand ? AuditClass.ByHand : AuditClass.Unplanned, zone, null, _clock.At(from).Day, from, 0, from, LengthOf(actual), null, actual.Place);
        }
    }

    private void Match(List<Meant> planned, ImmutableArray<Actual> actuals, Actual?[] found, Func<Meant, Actual, bool> isOf)
    {
        for (var index = 0; index < planned.Count; index++)
        {
            if (found[index] is not null) continue;
            var meant = planned[index];
            if (actuals.FirstOrDefault(actual => !_used.Contains(actual) && !actual.IsByHand && isOf(meant, actual)) is not { } match) continue;
            found[index] = match;
            _used.Add(match);
        }
    }

    private AuditEntry Judge(Zone zone, Meant meant, Actual? actual, ImmutableArray<Actual> actuals)
    {
        var (from, to) = (meant.From - _tolerance, meant.To + _tolerance);
        var fault = _history.Remark(LogKind.Fault, zone.Index, from, to);
        AuditEntry Of(AuditClass kind, string? why = null, LogPlace? place = null) => new(
            kind, zone, _site.Schedules[meant.Schedule], meant.Day, meant.From, meant.To - meant.From, (long?)actual?.From, actual is null ? null : LengthOf(actual), why, place ?? actual?.Place);
        if (fault is not null) return Of(AuditClass.Fault, fault.Why, fault.Place);
        if (actual is not null) return Of(ClassOf(meant, actual, actuals));
        if ((_history.Remark(LogKind.Skip, zone.Index, from, to) ?? _history.Remark(LogKind.Skip, AllZones, meant.PassStart - _tolerance, to)) is { } skip) return Of(AuditClass.Skipped, skip.Why, skip.Place);
        return Of(_history.IsKnown(from, to) ? AuditClass.Missed : AuditClass.NotKnown);
    }

    private AuditClass ClassOf(Meant meant, Actual actual, ImmutableArray<Actual> actuals)
    {
        var pieces = actuals.Where(other => !_used.Contains(other) && !other.IsByHand && other.From > actual.From && other.From < meant.To).ToList();
        foreach (var piece in pieces) _used.Add(piece);
        if (pieces.Count > 0 || actual.End == ActualEnd.Boot) return AuditClass.Interrupted;
        if (actual.End == ActualEnd.NotSeen) return AuditClass.CloseNotSeen;
        var (late, longer) = (actual.From - meant.From, actual.Seconds - (meant.To - meant.From));
        if (longer > _tolerance && !_history.IsKnown(actual.From, actual.To)) return AuditClass.CloseNotSeen;
        if (Math.Abs(longer) > _tolerance) return longer > 0 ? AuditClass.Long : AuditClass.Short;
        if (Math.Abs(late) > _tolerance) return late > 0 ? AuditClass.Late : AuditClass.Early;
        return AuditClass.Done;
    }

    private static long? LengthOf(Actual actual) => actual.End == ActualEnd.NotSeen ? null : actual.Seconds;

    private AuditedWater WaterOf(Zone zone, ImmutableArray<AuditEntry> entries, IReadOnlyList<LogEvent> events)
    {
        var litres = events.Where(entry => entry.Zone == zone.Index && entry.Litres is not null).ToList();
        return new AuditedWater(
            zone,
            entries.Where(entry => entry.Zone == zone).Sum(entry => entry.Seconds),
            _history.Actuals.Where(actual => actual.Zone == zone.Index && actual.End != ActualEnd.NotSeen).Sum(actual => actual.Seconds),
            litres.Count == 0 ? null : litres.Sum(entry => entry.Litres));
    }

    /// <summary>A meter that shows less than before was set back, or is another.</summary>
    private static decimal? Metered(IReadOnlyList<LogEvent> events)
    {
        var shown = events.Select(entry => entry.Meter).OfType<decimal>().ToList();
        return shown.Count < 2 ? null : shown.Zip(shown.Skip(1), (before, after) => Math.Max(0, after - before)).Sum();
    }

    /// <summary>An opening that was meant.</summary>
    private sealed record Meant(int Zone, int Schedule, int Day, long PassStart, long From, long To)
    {
        public static Meant Of(in Opening opening, in Run run) => new(opening.Zone, run.Schedule, run.Day, run.PassStart, opening.From, opening.To);
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
