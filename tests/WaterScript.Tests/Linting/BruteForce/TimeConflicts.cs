using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Text;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>Conflicts of times, found by looking at every pair.</summary>
internal static class TimeConflicts
{
    public static IEnumerable<Conflict> ZoneTwice(Evidence evidence) =>
        from ofZone in evidence.Runs.GroupBy(run => run.Zone)
        from pair in Evidence.Pairs(ofZone.ToList())
        where pair.First.Schedule != pair.Second.Schedule
        where Meet(pair.First.Start, pair.First.End, pair.Second.Start, pair.Second.End)
        select Between(evidence, Math.Max(pair.First.Start, pair.Second.Start), pair.First.Schedule, pair.Second.Schedule);

    public static IEnumerable<Conflict> PassOverlap(Evidence evidence) =>
        PassesThatMeet(evidence).Select(pair => new Conflict(pair.Second.From, OriginOf(evidence, pair.Second.Schedule)));

    /// <summary>Of two schedules that want one zone at once, another rule tells, unless the controller never runs two.</summary>
    public static IEnumerable<Conflict> SchedulesOverlap(Evidence evidence)
    {
        var twice = ZoneTwice(evidence).Select(conflict => (conflict.Origin, conflict.Other)).ToHashSet();
        return
            from controller in evidence.Site.Controllers
            where controller.SchedulesMayOverlap != true
            let passes = evidence.Passes.Select(pass => OnOne(evidence, controller, pass)).OfType<Evidence.Pass>().ToList()
            from pair in Evidence.Pairs(passes)
            where pair.First.Schedule != pair.Second.Schedule
            where Meet(pair.First.From, pair.First.To, pair.Second.From, pair.Second.To)
            let conflict = Between(evidence, Math.Max(pair.First.From, pair.Second.From), pair.First.Schedule, pair.Second.Schedule)
            where controller.SchedulesMayOverlap == false || !twice.Contains((conflict.Origin, conflict.Other))
            select conflict;
    }

    /// <summary>
    /// A valve of one pass closes, and one of another opens before the gap of their supply is over: of the first on the way from the second valve to the
    /// source that has a change-over and that the water of the first valve came through as well. Where a line makes passes of one schedule overlap, another
    /// rule tells.
    /// </summary>
    public static IEnumerable<Conflict> ChangeOverTooShort(Evidence evidence)
    {
        var reported = PassesThatMeet(evidence).Select(pair => LineOf(pair.First.Runs[0], pair.Second.Runs[0])).ToHashSet();
        foreach (var supply in evidence.Site.Supplies.Where(supply => supply.Change is { IsOverlap: false }))
        {
            var gap = supply.Change!.Length.TotalSeconds;
            var openings = evidence.Waterings;
            foreach (var before in openings)
            {
                foreach (var after in openings.Where(after => before.To <= after.From && after.From - before.To < gap))
                {
                    if (SharedWithChange(evidence, before, after) != supply) continue;
                    var ended = evidence.Runs.Where(run => run.Zone == before.Zone && run.End == before.To);
                    var began = evidence.Runs.Where(run => run.Zone == after.Zone && run.Start == after.From).ToList();
                    if (ended.Any(first => began.Exists(second =>
                        PassOf(first) != PassOf(second) && (first.Schedule != second.Schedule || !reported.Contains(LineOf(first, second))))))
                        yield return new Conflict(after.From, supply.Origin);
                }
            }
        }
    }

    private static Supply? SharedWithChange(Evidence evidence, ReferenceOpening before, ReferenceOpening after) =>
        WayUp(evidence, after).Find(supply => supply.Change is not null && WayUp(evidence, before).Contains(supply));

    /// <summary>The supplies that water of a zone comes through, up to a tank, which is filled at other times.</summary>
    private static List<Supply> WayUp(Evidence evidence, ReferenceOpening opening)
    {
        var way = new List<Supply>();
        var next = evidence.Site.Zones[opening.Zone].Supply;
        while (next is not null)
        {
            way.Add(next);
            next = next.Tank is not null ? null : next.FedBy;
        }

        return way;
    }

    public static IEnumerable<Conflict> RestTooShort(Evidence evidence)
    {
        foreach (var zone in evidence.Site.Zones.Where(zone => zone.Rest is not null))
        {
            var openings = evidence.Waterings.Where(opening => opening.Zone == zone.Index).ToList();
            foreach (var (before, after) in openings.Zip(openings.Skip(1)))
            {
                if (after.From - before.To < zone.Rest!.Value.Value.TotalSeconds) yield return new Conflict(after.From, zone.Origin);
            }
        }
    }

    /// <summary>Counts the seconds since a zone closed, since the beginning, or since the last date out of season.</summary>
    public static IEnumerable<Conflict> DryTooLong(Evidence evidence)
    {
        foreach (var zone in evidence.Site.Zones.Where(zone => zone.NeverDryFor is not null))
        {
            var most = (long)zone.NeverDryFor!.Value.Value.TotalSeconds;
            var dryFrom = evidence.StartOf(evidence.Horizon.From);
            var openings = evidence.Waterings.Where(opening => opening.Zone == zone.Index).ToList();
            foreach (var (opens, closes) in openings.Select(opening => (opening.From, opening.To))
                .Append((evidence.StartOf(evidence.Horizon.Until), long.MaxValue)))
            {
                long dry = 0;
                foreach (var (date, from, to) in evidence.Dates(dryFrom, opens))
                {
                    var before = dry;
                    dry = IsInSeason(evidence.Site, zone, date) ? dry + to - from : 0;
                    if (before <= most && most < dry) yield return new Conflict(from + most - before, zone.Origin);
                }

                dryFrom = closes;
            }
        }
    }

    private static bool IsInSeason(Site site, Zone zone, NodaTime.LocalDate date) =>
        !site.ClosedSeasons.Any(closed => ReferenceDays.Holds(closed.Days, date, anchor: null))
        && site.Schedules.Any(schedule =>
            !schedule.IsManual && !schedule.IsExtra && Waterings.ZonesIn(schedule.Steps).Contains(zone) && IsInSeason(site, schedule, date));

    private static bool IsInSeason(Site site, Schedule schedule, NodaTime.LocalDate date) =>
        (schedule.Season is not { } season || ReferenceDays.Holds(season.Span, date, anchor: null))
        && schedule.Starts.Any(start => start is not StartAfter after || IsInSeason(site, site.Schedules.Single(other => other.Name == after.Other), date));

    /// <summary>Runs that touch are one opening; what a change-over keeps open at its end does not count.</summary>
    public static IEnumerable<Conflict> LongerThanLongest(Evidence evidence) =>
        from opening in evidence.Waterings
        let zone = evidence.Site.Zones[opening.Zone]
        let runs = evidence.Runs.Where(run => run.Zone == opening.Zone && run.Start >= opening.From && run.Start < opening.To)
        where runs.Max(run => run.End) - opening.From > zone.Longest?.Value.TotalSeconds
        select new Conflict(opening.From, zone.Origin);

    /// <summary>What a pass does on one controller; null where it does nothing.</summary>
    private static Evidence.Pass? OnOne(Evidence evidence, Controller controller, Evidence.Pass pass)
    {
        var runs = pass.Runs.Where(run => evidence.Site.Zones[run.Zone].Controller == controller).ToList();
        return runs.Count == 0 ? null : new Evidence.Pass(pass.Schedule, runs);
    }

    /// <summary>Passes of one schedule that meet, the one that begins earlier first.</summary>
    private static IEnumerable<(Evidence.Pass First, Evidence.Pass Second)> PassesThatMeet(Evidence evidence) =>
        from ofSchedule in evidence.Passes.GroupBy(pass => pass.Schedule)
        from pair in Evidence.Pairs(ofSchedule.OrderBy(pass => pass.From).ToList())
        where Meet(pair.First.From, pair.First.To, pair.Second.From, pair.Second.To)
        select pair;

    /// <summary>
    /// The line that makes the second of two passes of a schedule come when it does: its repeat (0) where both are of one start of a date, else its start.
    /// </summary>
    private static (string Schedule, int Line) LineOf(ReferenceRun first, ReferenceRun second) =>
        (second.Schedule, first.Day == second.Day && first.StartNumber == second.StartNumber ? 0 : second.StartNumber);

    private static (string, NodaTime.LocalDate, int, int) PassOf(ReferenceRun run) => (run.Schedule, run.Day, run.StartNumber, run.Pass);

    private static Conflict Between(Evidence evidence, long at, string first, string second)
    {
        var places = new[] { OriginOf(evidence, first), OriginOf(evidence, second) }.OrderBy(place => place.Span.Start).ToArray();
        return new Conflict(at, places[0], places[1]);
    }

    private static Location OriginOf(Evidence evidence, string schedule) => evidence.Site.Schedules.Single(each => each.Name == schedule).Origin;

    private static bool Meet(long from, long to, long otherFrom, long otherTo) => from < otherTo && otherFrom < to;
}
