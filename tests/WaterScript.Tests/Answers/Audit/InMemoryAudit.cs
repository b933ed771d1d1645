using NodaTime;
using WaterScript.Answers.Audit;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Tests.Answers.Audit;

/// <summary>The second judge of an audit: it holds the whole log and the whole timetable, and searches all of both for each watering.</summary>
internal sealed class InMemoryAudit
{
    private readonly Site _site;
    private readonly List<LogEvent> _events;
    private readonly bool _isNumbered;
    private readonly AuditOptions _options;
    private readonly List<Was> _actuals;
    private readonly HashSet<Was> _used = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<Was, long?> _joined = new(ReferenceEqualityComparer.Instance);
    private readonly ZoneClock _clock;

    private InMemoryAudit(Site site, List<LogEvent> events, AuditOptions options)
    {
        (_site, _events, _options, _clock) = (site, events, options, new ZoneClock(site.TimeZone));
        _isNumbered = events.TrueForAll(told => told.Number is not null);
        _actuals = [.. site.Zones.SelectMany(zone => ActualsOf(zone.Index))];
    }

    /// <summary>What became of each watering, in order of time, then of the zones.</summary>
    /// <param name="site">The site.</param>
    /// <param name="rows">What the log tells, in any order.</param>
    /// <param name="options">How exact it is to be.</param>
    public static (List<AuditEntry> Entries, int Doubled, List<long> ActualSeconds) Of(Site site, IReadOnlyList<LogEvent> rows, AuditOptions options)
    {
        var each = rows.DistinctBy(row => (row.At, row.Kind, row.Zone, row.Number, row.Why)).ToList();
        var audit = new InMemoryAudit(site, [.. each.OrderBy(row => row.At).ThenBy(row => row.Number ?? 0).ThenBy(row => row.Kind == LogKind.Open)], options);
        var entries = site.Zones.SelectMany(zone => audit.EntriesOf(zone)).OrderBy(entry => entry.From).ThenBy(entry => entry.Zone.Index).ToList();
        var seconds = site.Zones.Select(zone => audit._actuals.Where(was => was.Zone == zone.Index && was.End != "not seen").Sum(was => was.Seconds)).ToList();
        return (entries, rows.Count - each.Count, seconds);
    }

    private IEnumerable<AuditEntry> EntriesOf(Zone zone)
    {
        var (from, to) = (DateOf(_events[0].At), DateOf(_events[^1].At).PlusDays(1));
        var timetable = Timetable.Of(_site, new Horizon(from, to));
        var runs = timetable.Runs().ToDictionary(run => run.Number);
        var planned = timetable.Openings().Where(opening => opening.Zone == zone.Index)
            .Select(opening => (Opening: opening, Run: runs[opening.Runs[0]])).ToList();
        var actuals = _actuals.Where(was => was.Zone == zone.Index).ToList();
        var found = new Was?[planned.Count];
        Find((opening, was) => Math.Abs(was.From - opening.From) <= _options.ToleranceSeconds);
        Find((opening, was) => was.From <= opening.To && was.To >= opening.From - _options.ToleranceSeconds);
        for (var index = 0; index < planned.Count; index++) yield return Judge(zone, planned[index].Opening, planned[index].Run, found[index], actuals);
        foreach (var was in actuals.Where(was => !_used.Contains(was)))
        {
            var kind = was.IsByHand ? AuditClass.ByHand : AuditClass.Unplanned;
            yield return new AuditEntry(kind, zone, null, _clock.At((long)was.From).Day, (long)was.From, 0, (long)was.From, was.Length, null, was.Place);
        }

        void Find(Func<Opening, Was, bool> isOf)
        {
            for (var index = 0; index < planned.Count; index++)
            {
                var opening = planned[index].Opening;
                if (found[index] is not null || actuals.Find(was => !_used.Contains(was) && !was.IsByHand && isOf(opening, was)) is not { } match) continue;
                found[index] = match;
                _used.Add(match);
            }
        }
    }

    private AuditEntry Judge(Zone zone, Opening meant, Run run, Was? was, List<Was> actuals)
    {
        var (from, to) = (meant.From - _options.ToleranceSeconds, meant.To + _options.ToleranceSeconds);
        AuditEntry Of(AuditClass kind, LogEvent? because = null) =>
            new(kind, zone, _site.Schedules[run.Schedule], run.Day, meant.From, meant.Seconds, (long?)was?.From, LengthOf(was), because?.Why, because?.Place
                ?? was?.Place);
        LogEvent? Remark(LogKind kind, long since, bool isOfAll) =>
            _events.Find(told => told.Kind == kind && (told.Zone < 0 || (!isOfAll && told.Zone == zone.Index)) && told.At >= since && told.At <= to);
        if (Remark(LogKind.Fault, from, isOfAll: false) is { } fault) return Of(AuditClass.Fault, fault);
        if (was is not null) return Of(ClassOf(meant, was, actuals));
        if ((Remark(LogKind.Skip, from, isOfAll: false)
            ?? Remark(LogKind.Skip, run.PassStart - _options.ToleranceSeconds, isOfAll: true)) is { } skip) return Of(AuditClass.Skipped, skip);
        return Of(IsKnown(from, to) ? AuditClass.Missed : AuditClass.NotKnown);
    }

    private AuditClass ClassOf(Opening meant, Was was, List<Was> actuals)
    {
        var pieces = actuals.Where(other => !_used.Contains(other) && !other.IsByHand && other.From > was.From && other.From < meant.To).ToList();
        _used.UnionWith(pieces);
        if (pieces.Count > 0) _joined[was] = pieces.Aggregate(was.Length, (sum, piece) => sum + piece.Length);
        if (pieces.Count > 0 || was.End == "boot") return AuditClass.Interrupted;
        if (was.End == "not seen")
            return _events[^1].At < meant.To + _options.ToleranceSeconds ? AuditClass.NotKnown : AuditClass.CloseNotSeen;
        var (late, longer) = (was.From - meant.From, was.Seconds - meant.Seconds);
        if (longer > _options.ToleranceSeconds && !IsKnown(was.From, was.To)) return AuditClass.CloseNotSeen;
        if (Math.Abs(longer) > _options.ToleranceSeconds) return longer > 0 ? AuditClass.Long : AuditClass.Short;
        if (Math.Abs(late) > _options.ToleranceSeconds) return late > 0 ? AuditClass.Late : AuditClass.Early;
        return AuditClass.Done;
    }

    private long? LengthOf(Was? was) => was is not null && _joined.TryGetValue(was, out var joined) ? joined : was?.Length;

    private IEnumerable<Was> ActualsOf(int zone)
    {
        LogEvent? open = null;
        foreach (var told in _events.Where(told => told.Kind == LogKind.Boot || (told.Zone == zone && told.Kind is LogKind.Open or LogKind.Close)))
        {
            if (open is not null)
            {
                if (told.Kind == LogKind.Boot) yield return Ended(open, told.At, "boot");
                else if (told.Kind == LogKind.Close && (!_isNumbered || IsKnown(open.At, told.At))) yield return Ended(open, told.At, "closed");
                else yield return Ended(open, open.At, "not seen");
            }

            open = told.Kind == LogKind.Open ? told : null;
        }

        if (open is not null) yield return Ended(open, open.At, "not seen");
    }

    private Was Ended(LogEvent open, decimal to, string end)
    {
        var isByHand = open.Why is "hand" or "manual"
            || _events.Exists(told => told.Kind == LogKind.Hand && told.Zone == open.Zone && Math.Abs(told.At - open.At) <= 300);
        return new Was(open.Zone, open.At, to, end, isByHand, open.Place);
    }

    private bool IsKnown(decimal from, decimal to)
    {
        if (from < _events[0].At || to > _events[^1].At) return false;
        for (var index = _events.FindLastIndex(told => told.At <= from); index + 1 < _events.Count && _events[index].At < to; index++)
        {
            var (before, after) = (_events[index], _events[index + 1]);
            if (after.Kind == LogKind.Boot) return false;
            if (_isNumbered ? after.Number != before.Number && after.Number != before.Number + 1 : after.At - before.At > _options.SilenceSeconds) return false;
        }

        return true;
    }

    private LocalDate DateOf(decimal instant) => CivilDate.FromDayNumber(_clock.At((long)instant).Day).ToLocalDate();

    private sealed record Was(int Zone, decimal From, decimal To, string End, bool IsByHand, LogPlace Place)
    {
        public long Seconds => (long)Math.Round(To - From, MidpointRounding.AwayFromZero);

        public long? Length => End == "not seen" ? null : Seconds;
    }
}
