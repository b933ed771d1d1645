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
    private readonly Dictionary<Was, long> _unknown = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<int, List<LogEvent>> _rowsOf = [];
    private readonly ZoneClock _clock;

    private InMemoryAudit(Site site, List<LogEvent> events, AuditOptions options)
    {
        (_site, _events, _options, _clock) = (site, events, options, new ZoneClock(site.TimeZone));
        _isNumbered = events.TrueForAll(said => said.Number is not null);
        _actuals = [.. site.Zones.Where(zone => !zone.IsHandWatered).SelectMany(zone => ActualsOf(zone.Index))];
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
                ?? was?.Place)
            {
                NotKnownSeconds = was is null ? 0 : _unknown.TryGetValue(was, out var seconds) ? seconds : NotKnownOf(was, meant.To),
            };
        LogEvent? Remark(LogKind kind, long since, bool isOfAll) =>
            _events.Find(said => said.Kind == kind && (said.Zone < 0 || (!isOfAll && said.Zone == zone.Index)) && said.At >= since && said.At <= to);
        if (Remark(LogKind.Fault, from, isOfAll: false) is { } fault) return Of(AuditClass.Fault, fault);
        if (was is not null) return Of(ClassOf(meant, was, actuals));
        if ((Remark(LogKind.Skip, from, isOfAll: false)
            ?? Remark(LogKind.Skip, run.PassStart - _options.ToleranceSeconds, isOfAll: true)) is { } skip) return Of(AuditClass.Skipped, skip);
        return Of(IsKnown(zone.Index, from, to) ? AuditClass.Missed : AuditClass.NotKnown);
    }

    private AuditClass ClassOf(Opening meant, Was was, List<Was> actuals)
    {
        var pieces = actuals.Where(other => !_used.Contains(other) && !other.IsByHand && other.From > was.From && other.From < meant.To).ToList();
        _used.UnionWith(pieces);
        if (pieces.Count > 0)
        {
            Was[] all = [was, .. pieces];
            _joined[was] = all.All(piece => piece.Length is null) ? null : all.Sum(piece => piece.Length ?? 0);
        }

        _unknown[was] = pieces.Prepend(was).Sum(piece => NotKnownOf(piece, meant.To));
        if (pieces.Count > 0 || was.End == "boot") return AuditClass.Interrupted;
        if (was.End == "not seen")
            return _events[^1].At < meant.To + _options.ToleranceSeconds ? AuditClass.NotKnown : AuditClass.CloseNotSeen;
        var (late, longer) = (was.From - meant.From, was.Seconds - meant.Seconds);
        if (longer > _options.ToleranceSeconds && !IsKnown(was.Zone, was.From, was.To)) return AuditClass.CloseNotSeen;
        if (Math.Abs(longer) > _options.ToleranceSeconds) return longer > 0 ? AuditClass.Long : AuditClass.Short;
        if (Math.Abs(late) > _options.ToleranceSeconds) return late > 0 ? AuditClass.Late : AuditClass.Early;
        return AuditClass.Done;
    }

    private long? LengthOf(Was? was) => was is not null && _joined.TryGetValue(was, out var joined) ? joined : was?.Length;

    private IEnumerable<Was> ActualsOf(int zone)
    {
        LogEvent? open = null;
        foreach (var said in RowsOf(zone).Where(said => said.Kind == LogKind.Boot || (said.Zone == zone && said.Kind is LogKind.Open or LogKind.Close)))
        {
            if (open is not null)
            {
                if (said.Kind == LogKind.Boot)
                {
                    var before = RowsOf(zone).TakeWhile(row => !ReferenceEquals(row, said)).Last().At;
                    yield return Ended(open, Math.Max(open.At, before), "boot") with { MayBeTo = said.At };
                }
                else if (said.Kind == LogKind.Close && (!_isNumbered || IsKnown(zone, open.At, said.At))) yield return Ended(open, said.At, "closed");
                else yield return Ended(open, open.At, "not seen");
            }

            open = said.Kind == LogKind.Open ? said : null;
        }

        if (open is not null) yield return Ended(open, open.At, "not seen");
    }

    private Was Ended(LogEvent open, decimal to, string end)
    {
        var isByHand = open.Why is "hand" or "manual"
            || _events.Exists(said => said.Kind == LogKind.Hand && said.Zone == open.Zone && Math.Abs(said.At - open.At) <= 300);
        return new Was(open.Zone, open.At, to, end, isByHand, open.Place);
    }

    private static long NotKnownOf(Was was, long meantTo) =>
        (long)Math.Max(0, Math.Round(Math.Min(was.MayBeTo, meantTo) - was.To, MidpointRounding.AwayFromZero));

    /// <summary>The rows that are of the controller of a zone, or of none.</summary>
    private List<LogEvent> RowsOf(int zone)
    {
        if (!_rowsOf.TryGetValue(zone, out var rows))
        {
            var controller = _site.Zones[zone].Controller!.Index;
            _rowsOf[zone] = rows = _events.FindAll(said => said.Zone < 0 || _site.Zones[said.Zone].Controller!.Index == controller);
        }

        return rows;
    }

    /// <summary>Whether no row is missing between two: those of one controller, or of all, count on.</summary>
    private bool Follows(LogEvent before, LogEvent after)
    {
        if (after.Kind == LogKind.Boot) return false;
        if (!_isNumbered) return after.At - before.At <= _options.SilenceSeconds;
        static bool IsNext(LogEvent first, LogEvent second) => second.Number == first.Number || second.Number == first.Number + 1;
        var between = _events.SkipWhile(said => !ReferenceEquals(said, before)).TakeWhile(said => !ReferenceEquals(said, after)).Append(after).ToList();
        return IsNext(before, after) || (after.Number > before.Number && between.Zip(between.Skip(1)).All(pair => IsNext(pair.First, pair.Second)));
    }

    private bool IsKnown(int zone, decimal from, decimal to)
    {
        var rows = RowsOf(zone);
        if (rows.Count == 0 || from < rows[0].At || to > rows[^1].At) return false;
        for (var index = rows.FindLastIndex(said => said.At <= from); index + 1 < rows.Count && rows[index].At < to; index++)
        {
            if (!Follows(rows[index], rows[index + 1])) return false;
        }

        return true;
    }

    private LocalDate DateOf(decimal instant) => CivilDate.FromDayNumber(_clock.At((long)instant).Day).ToLocalDate();

    private sealed record Was(int Zone, decimal From, decimal To, string End, bool IsByHand, LogPlace Place)
    {
        public long Seconds => (long)Math.Round(To - From, MidpointRounding.AwayFromZero);

        public decimal MayBeTo { get; init; } = To;

        public long? Length => End == "not seen" ? null : Seconds;
    }
}
