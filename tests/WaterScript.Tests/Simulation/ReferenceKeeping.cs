using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Tests.Simulation;

/// <summary>What schedules lose because they keep to restrictions, asked for one second after the other.</summary>
internal sealed class ReferenceKeeping
{
    private static readonly LocalDate Epoch = new(1970, 1, 1);

    private readonly Site _site;
    private readonly SunTimes? _sun;
    private readonly HashSet<(Location Line, int Zone, LocalDate Date)> _counted = [];

    /// <param name="site">The site.</param>
    /// <param name="planned">Its runs from the effective date on, as if nothing were held and no schedule kept to anything.</param>
    public ReferenceKeeping(Site site, Func<IEnumerable<ReferenceRun>> planned)
    {
        _site = site;
        _sun = site.Position is { } position ? SunTimes.Of(position, new ZoneClock(site.TimeZone)) : null;
        if (!site.Schedules.SelectMany(schedule => schedule.Keeps).Any(keep => keep.Restriction.AtMost.Any(line => line.Kind == LimitKind.DaysAWeek))) return;
        foreach (var run in planned().OrderBy(run => run.Start)) Count(run);
    }

    /// <summary>Whether any schedule keeps to an amount of a day.</summary>
    public bool HasAmounts => _site.Schedules.SelectMany(schedule => schedule.Keeps).Any(keep => keep.Restriction.AtMost.Any(IsOfDay));

    /// <summary>
    /// The first second of a run at which a schedule may not water the zone, by dates and hours; null where it may all the time. Dates and hours begin and
    /// end at whole minutes.
    /// </summary>
    public long? FirstHeld(Schedule schedule, int zone, long from, long to)
    {
        if (schedule.Keeps.IsEmpty) return null;
        for (var second = from; second < to; second += 60 - (((second % 60) + 60) % 60))
        {
            var at = second;
            if (schedule.Keeps.Any(keep => IsHeld(keep.Restriction, zone, at))) return second;
        }

        return null;
    }

    /// <summary>Takes from runs what is over the amounts of their dates: each second is added up before it may flow.</summary>
    public List<ReferenceRun> WithinAmounts(IEnumerable<ReferenceRun> runs)
    {
        var kept = new List<ReferenceRun>();
        var wet = new List<ReferenceRun>();
        var sums = new Dictionary<(Location Line, int Zone), decimal>();
        var held = new HashSet<(Location Line, int Zone)>();
        LocalDate? today = null;
        var coming = new Queue<ReferenceRun>(runs.OrderBy(run => run.Start));
        long second;
        for (second = coming.Count == 0 ? 0 : coming.Peek().Start; coming.Count > 0 || wet.Count > 0; second++)
        {
            if (wet.Count == 0 && coming.Peek().Start > second) second = coming.Peek().Start;
            kept.AddRange(wet.Where(run => run.End <= second));
            wet.RemoveAll(run => run.End <= second);
            var date = DateOf(second);
            if (today != date)
            {
                sums.Clear();
                held.Clear();
                today = date;
            }

            while (coming.Count > 0 && coming.Peek().Start == second) wet.Add(coming.Dequeue());
            foreach (var (restriction, line, zone) in Accounts()) Stop(held.Contains((line.Origin, zone)), restriction, line, zone);
            foreach (var (restriction, line, zone) in Accounts())
            {
                if (sums.GetValueOrDefault((line.Origin, zone)) + Share(restriction, line, zone, wet, date) <= MostOf(line)) continue;
                held.Add((line.Origin, zone));
                Stop(isHeld: true, restriction, line, zone);
            }

            foreach (var (restriction, line, zone) in Accounts())
                sums[(line.Origin, zone)] = sums.GetValueOrDefault((line.Origin, zone)) + Share(restriction, line, zone, wet, date);
        }

        return kept;

        void Stop(bool isHeld, Restriction restriction, AtMost line, int zone)
        {
            if (!isHeld) return;
            var stopped = wet.Where(run => IsStopped(run, restriction, line, zone, today!.Value)).ToList();
            wet.RemoveAll(stopped.Contains);
            kept.AddRange(stopped.Where(run => run.Start < second).Select(run => run with { End = second, Overlap = 0 }));
        }
    }

    private static bool IsOfDay(AtMost line) =>
        line.Kind is LimitKind.TimeADay or LimitKind.DepthADay || line is { Kind: LimitKind.Volume, Period: LimitPeriod.Day };

    private IEnumerable<(Restriction Restriction, AtMost Line, int Zone)> Accounts() =>
        from restriction in _site.Restrictions
        from line in restriction.AtMost
        where IsOfDay(line)
        from zone in line.PerZone || line.Kind == LimitKind.DepthADay ? Enumerable.Range(0, _site.Zones.Length) : [-1]
        select (restriction, line, zone);

    /// <summary>The limit in the units in which a second is added up, with what decimals lose.</summary>
    private static decimal MostOf(AtMost line) => line.Kind switch
    {
        LimitKind.TimeADay => decimal.Floor(line.Amount),
        LimitKind.DepthADay => (line.Amount * 3600) + 0.000000001m,
        _ => (line.Amount * 60) + 0.000000001m,
    };

    /// <summary>What a second adds: a second, or what flows in an hour or in a minute. A zone that two runs water at once is one.</summary>
    private decimal Share(Restriction restriction, AtMost line, int zone, IEnumerable<ReferenceRun> wet, LocalDate date)
    {
        var zones = wet.Select(run => run.Zone).Distinct().Where(each => (zone < 0 || each == zone) && Binds(restriction, each, date)).ToList();
        return line.Kind switch
        {
            LimitKind.TimeADay => zones.Count > 0 ? 1 : 0,
            LimitKind.DepthADay => zones.Sum(each => _site.Zones[each].MillimetresPerHour ?? 0),
            _ => zones.Sum(each => _site.Zones[each].LitresPerMinute ?? 0),
        };
    }

    private bool IsStopped(ReferenceRun run, Restriction restriction, AtMost line, int zone, LocalDate date) =>
        (zone < 0 || run.Zone == zone)
        && _site.Schedules.Single(schedule => schedule.Name == run.Schedule).Keeps.Any(keep => keep.Restriction.Origin == restriction.Origin)
        && Binds(restriction, run.Zone, date)
        && line.Kind switch
        {
            LimitKind.TimeADay => true,
            LimitKind.DepthADay => _site.Zones[run.Zone].MillimetresPerHour is not null,
            _ => _site.Zones[run.Zone].LitresPerMinute is not null,
        };

    /// <summary>A planned start counts its date where all that its schedule keeps to allow it then, the days of their weeks among that.</summary>
    private void Count(ReferenceRun run)
    {
        var date = DateOf(run.Start);
        var bound = _site.Schedules.Single(schedule => schedule.Name == run.Schedule).Keeps.Select(keep => keep.Restriction)
            .Where(restriction => Binds(restriction, run.Zone, date)).ToList();
        if (bound.Exists(restriction => IsForbidden(restriction, run.Start, date))) return;
        var lines = bound.SelectMany(restriction => restriction.AtMost.Where(line => line.Kind == LimitKind.DaysAWeek)
            .Select(line => (Restriction: restriction, Line: line, Zone: line.PerZone ? run.Zone : -1))).ToList();
        if (lines.Exists(line => !_counted.Contains((line.Line.Origin, line.Zone, date))
            && InWeek(line.Restriction, line.Line, line.Zone, date) >= line.Line.Amount)) return;
        foreach (var line in lines) _counted.Add((line.Line.Origin, line.Zone, date));
    }

    private int InWeek(Restriction restriction, AtMost line, int zone, LocalDate date)
    {
        var first = date.With(DateAdjusters.PreviousOrSame(restriction.WeekStarts));
        return Enumerable.Range(0, 7).Count(day => _counted.Contains((line.Origin, zone, first.PlusDays(day))));
    }

    private bool IsHeld(Restriction restriction, int zone, long second)
    {
        var date = DateOf(second);
        return Binds(restriction, zone, date) && (IsForbidden(restriction, second, date) || restriction.AtMost.Any(line =>
            line.Kind == LimitKind.DaysAWeek && !_counted.Contains((line.Origin, line.PerZone ? zone : -1, date))));
    }

    private bool IsForbidden(Restriction restriction, long second, LocalDate date) =>
        (restriction.AllowedDays.Length > 0 && !ReferenceDays.HoldsAny(restriction.AllowedDays, date))
        || ReferenceDays.HoldsAny(restriction.Except, date)
        || (restriction.AllowedHours.Length > 0 && !restriction.AllowedHours.Any(hours => Allows(hours, second, date)));

    /// <summary>Hours are judged by what the clock shows; a date on which one of their sun events is missing is allowed whole.</summary>
    private bool Allows(Hours hours, long second, LocalDate date)
    {
        var shown = Local(second);
        for (var day = date.PlusDays(-1); day <= date.PlusDays(1); day = day.PlusDays(1))
        {
            var (from, to) = (WallOf(hours.From, day), WallOf(hours.To, day));
            if (to <= from) to = WallOf(hours.To, day.PlusDays(1));
            if (from is null || to is null ? day == date : from <= shown && shown < to) return true;
        }

        return false;
    }

    private LocalDateTime? WallOf(Moment moment, LocalDate date) => moment switch
    {
        ClockMoment clock => date.AtMidnight().PlusSeconds(clock.SecondOfDay),
        SunMoment sun => _sun!.EventOn(Period.DaysBetween(Epoch, date), sun.Event) is { } instant ? Local(instant + (long)sun.Offset.TotalSeconds) : null,
        _ => throw new NotSupportedException(moment.GetType().Name),
    };

    private static bool Binds(Restriction restriction, int zone, LocalDate date) =>
        (restriction.Zones.Length == 0 || restriction.Zones.Any(each => each.Index == zone))
        && (restriction.Season is not { } season || ReferenceDays.Holds(season.Span, date, anchor: null))
        && !restriction.Exempt.Any(exemption =>
            exemption.Zones.Any(each => each.Index == zone) && (exemption.Dates is not { } dates || ReferenceDays.Holds(dates.Span, date, anchor: null)));

    private LocalDateTime Local(long second) => Instant.FromUnixTimeSeconds(second).InZone(_site.TimeZone).LocalDateTime;

    private LocalDate DateOf(long second) => Local(second).Date;
}
