using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Restrictions;

/// <summary>Holds pieces of runs to one restriction, in order of time.</summary>
internal sealed class RestrictionJudge
{
    private readonly Restriction _restriction;
    private readonly Timetable _timetable;
    private readonly RestrictionReach _reach;
    private readonly DayPattern? _days;
    private readonly AllowedHours? _hours;
    private readonly ImmutableArray<DayLimit> _limits;
    private readonly ImmutableArray<VolumeAccount> _volumes;
    private readonly HashSet<(int Schedule, long PassStart)> _shortNights = [];
    private readonly Dictionary<(BreachKind Kind, Location Line, int Schedule), Breach> _breaches = [];

    public RestrictionJudge(Restriction restriction, Timetable timetable, MomentReader moments)
    {
        var site = timetable.Site;
        _restriction = restriction;
        _timetable = timetable;
        _reach = new RestrictionReach(restriction, site);
        var isForAllDays = restriction.AllowedDays.IsEmpty && restriction.Except.IsEmpty;
        _days = isForAllDays ? null : DayPattern.Of(restriction.AllowedDays, season: null, restriction.Except, site.Effective);
        _hours = restriction.AllowedHours.IsEmpty ? null : new AllowedHours(restriction.AllowedHours, moments);
        _limits = [.. restriction.AtMost.Where(line => line.Kind != LimitKind.Volume)
            .Select(line => new DayLimit(line, site, new WeeksFrom(restriction.WeekStarts)))];
        _volumes = [.. restriction.AtMost.Where(line => line.Kind == LimitKind.Volume).Select(line => new VolumeAccount(line, restriction, site))];
    }

    /// <summary>What is broken, one entry for each line and schedule.</summary>
    public IEnumerable<Breach> Breaches => _breaches.Values;

    /// <summary>Whether some date had no sun event that its hours are calculated from.</summary>
    public bool LackedSun => _hours?.LackedSun == true;

    /// <summary>Takes in the next piece.</summary>
    public void Visit(in WateredPiece piece)
    {
        if (!_reach.Binds(piece.Zone, piece.Day)) return;
        if (_days?.IsDue(piece.Day) == false) BreachOf(BreachKind.ForbiddenDay, ForbiddingLine(piece.Day), piece).Add(piece.Start, piece);
        if (_hours?.FirstOutside(piece.Day, piece.Start, piece.End) is { } outside) SeeOutside(_hours, outside, piece);
        foreach (var limit in _limits)
        {
            if (!limit.IsOver(piece, out var amount, out var moment)) continue;
            var kind = KindOf(limit.Line.Kind);
            if (moment is { } first) BreachOf(kind, limit.Line.Origin, piece).Add(first, piece);
            if (_breaches.TryGetValue((kind, limit.Line.Origin, piece.Schedule), out var breach)) breach.Reach(amount, piece, limit.Line.Amount);
        }

        foreach (var volume in _volumes) SeeVolume(volume, piece);
    }

    /// <summary>The times of a date at which a zone may not be watered, in Unix seconds, in order.</summary>
    /// <param name="zone">Index among the site's zones.</param>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    /// <param name="from">Its first instant.</param>
    /// <param name="until">The instant after its last.</param>
    public IEnumerable<(long From, long Until)> Forbidden(int zone, int day, long from, long until)
    {
        if (!_reach.Binds(zone, day)) return [];
        if (_days?.IsDue(day) == false) return [(from, until)];
        return _hours?.Outside(day, from, until) ?? [];
    }

    /// <summary>
    /// The line that forbids what <see cref="Forbidden"/> gives of a date: that of its days where all of it is forbidden, else that of its hours.
    /// </summary>
    public Location ForbiddingLine(int day) => _days?.IsDue(day) == false ? _restriction.DaysOrigin ?? _restriction.Origin : HoursLine;

    /// <summary>The zones whose depth could be limited, if their application rate were known.</summary>
    public IEnumerable<Zone> WithoutRate(Site site) => _restriction.AtMost.Any(line => line.Kind == LimitKind.DepthADay)
        ? site.Zones.Where(zone => _reach.CanBind(zone.Index) && zone.MillimetresPerHour is null)
        : [];

    /// <summary>The zones whose volume could be limited, if their flow were known.</summary>
    public IEnumerable<Zone> WithoutFlow(Site site) => _volumes.IsEmpty
        ? []
        : site.Zones.Where(zone => _reach.CanBind(zone.Index) && zone is { IsSpare: false, LitresPerMinute: null });

    /// <summary>A volume is that of whatever schedules water: one cause for each line, at the run with which it becomes too much.</summary>
    private void SeeVolume(VolumeAccount volume, in WateredPiece piece)
    {
        var isOver = volume.IsOver(piece, out var isFirst);
        if (!isOver) return;
        var key = (BreachKind.VolumeLimit, volume.Line.Origin, Schedule: -1);
        if (!_breaches.TryGetValue(key, out var breach))
            _breaches[key] = breach = new Breach(BreachKind.VolumeLimit, _restriction, volume.Line.Origin, piece) { Limit = volume.Line };
        if (isFirst) breach.Add(piece.Start, piece);
        breach.Reach(volume.LitresOf(piece), piece with { PassDay = piece.Day }, volume.Line.Amount);
    }

    private Location HoursLine => _restriction.AllowedHours[0].Origin;

    /// <summary>Where no start would bring the whole pass into the hours, that is the cause, once for each pass.</summary>
    private void SeeOutside(AllowedHours hours, long outside, in WateredPiece piece)
    {
        var needs = NeedOf(_timetable.PlanOn(piece.Schedule, piece.PassDay), _reach.CanBind);
        var has = hours.LongestFor(piece.PassStart);
        var breach = BreachOf(needs > has ? BreachKind.LongerThanHours : BreachKind.OutsideHours, HoursLine, piece);
        if (needs > has) breach.Reach(needs, piece, has);
        if (needs <= has || _shortNights.Add((piece.Schedule, piece.PassStart))) breach.Add(outside, piece);
    }

    /// <summary>How long a pass takes in the zones that count, pauses between them included, in seconds.</summary>
    private static long NeedOf(PassPlan plan, Func<int, bool> counts)
    {
        var (first, last) = (long.MaxValue, 0L);
        foreach (var run in plan.Runs)
        {
            if (!counts(run.Zone)) continue;
            first = Math.Min(first, run.Offset);
            last = Math.Max(last, run.Offset + run.Seconds);
        }

        return Math.Max(0, last - first);
    }

    private static BreachKind KindOf(LimitKind kind) => kind switch
    {
        LimitKind.DaysAWeek => BreachKind.WateringDaysLimit,
        LimitKind.TimeADay => BreachKind.DailyTimeLimit,
        LimitKind.DepthADay => BreachKind.DailyDepthLimit,
        _ => BreachKind.TooManyZones,
    };

    private Breach BreachOf(BreachKind kind, Location line, in WateredPiece piece)
    {
        var key = (kind, line, piece.Schedule);
        if (!_breaches.TryGetValue(key, out var breach)) _breaches[key] = breach = new Breach(kind, _restriction, line, piece);
        return breach;
    }
}
