using NodaTime;
using WaterScript.Model;
using WaterScript.Tests.Simulation;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>What breaks a restriction, found by asking every second of every run, or every date.</summary>
internal static class RestrictionConflicts
{
    /// <summary>The first second outside, of each run.</summary>
    public static IEnumerable<Conflict> OutsideHours(Evidence evidence)
    {
        foreach (var restriction in evidence.Site.Restrictions.Where(restriction => restriction.AllowedHours.Length > 0))
        {
            var windows = restriction.AllowedHours.Select(hours => Windows(evidence, hours)).ToList();
            foreach (var run in evidence.Runs)
            {
                foreach (var (date, from, to) in evidence.Dates(run.Start, run.End).Where(part => Binds(evidence, restriction, run.Zone, part.Date)))
                {
                    for (var second = from; second < to; second++)
                    {
                        var at = second;
                        if (windows.Exists(allows => allows(at))) continue;
                        yield return new Conflict(second, restriction.Origin);
                        break;
                    }
                }
            }
        }
    }

    public static IEnumerable<Conflict> ForbiddenDay(Evidence evidence) =>
        from restriction in evidence.Site.Restrictions
        from run in evidence.Runs
        from part in evidence.Dates(run.Start, run.End)
        where Binds(evidence, restriction, run.Zone, part.Date)
        where (restriction.AllowedDays.Length > 0 && !ReferenceDays.HoldsAny(restriction.AllowedDays, part.Date))
            || ReferenceDays.HoldsAny(restriction.Except, part.Date)
        select new Conflict(part.From, restriction.Origin);

    /// <summary>Each date that is one too many in its week, from its first second with water.</summary>
    public static IEnumerable<Conflict> WateringDaysLimit(Evidence evidence) =>
        from limit in Limits(evidence, LimitKind.DaysAWeek)
        from zones in Counted(evidence, limit.Line)
        from week in evidence.AllDates.GroupBy(part => part.Date.With(DateAdjusters.PreviousOrSame(limit.Restriction.WeekStarts)))
        let wet = week.Select(part => WetSeconds(evidence, limit.Restriction, zones, part)).Where(seconds => seconds.Count > 0)
        from day in wet.Skip((int)limit.Line.Amount)
        select new Conflict(day[0], limit.Line.Origin);

    /// <summary>The first second too many of a date.</summary>
    public static IEnumerable<Conflict> DailyTimeLimit(Evidence evidence) =>
        from limit in Limits(evidence, LimitKind.TimeADay)
        from zones in Counted(evidence, limit.Line)
        from part in evidence.AllDates
        let wet = WetSeconds(evidence, limit.Restriction, zones, part)
        where wet.Count > limit.Line.Amount
        select new Conflict(wet[(int)limit.Line.Amount], limit.Line.Origin);

    /// <summary>The second in which the depth of a date comes over the limit.</summary>
    public static IEnumerable<Conflict> DailyDepthLimit(Evidence evidence) =>
        from limit in Limits(evidence, LimitKind.DepthADay)
        from zone in evidence.Site.Zones
        where zone.MillimetresPerHour is not null
        from part in evidence.AllDates
        let wet = WetSeconds(evidence, limit.Restriction, [zone], part)
        where wet.Count * zone.MillimetresPerHour > limit.Line.Amount * 3600
        select new Conflict(wet[(int)(limit.Line.Amount * 3600 / zone.MillimetresPerHour!.Value)], limit.Line.Origin);

    public static IEnumerable<Conflict> ZonesAtATime(Evidence evidence)
    {
        foreach (var (restriction, line) in Limits(evidence, LimitKind.ZonesAtATime))
        {
            foreach (var (date, first, end) in evidence.AllDates)
            {
                var bound = evidence.Site.Zones.Where(zone => Binds(evidence, restriction, zone.Index, date))
                    .Select(zone => evidence.Wet[zone.Index]).ToArray();
                for (var index = first; index < end; index++)
                {
                    if (Count(bound, index) <= line.Amount) continue;
                    yield return new Conflict(evidence.At(index), line.Origin);
                    break;
                }
            }
        }
    }

    private static IEnumerable<(Restriction Restriction, AtMost Line)> Limits(Evidence evidence, LimitKind kind) =>
        evidence.Site.Restrictions.SelectMany(restriction => restriction.AtMost.Where(line => line.Kind == kind).Select(line => (restriction, line)));

    /// <summary>What is counted together: each zone for itself, or all.</summary>
    private static IEnumerable<Zone[]> Counted(Evidence evidence, AtMost line) =>
        line.PerZone ? evidence.Site.Zones.Select(zone => new[] { zone }) : [[.. evidence.Site.Zones]];

    /// <summary>The seconds of a date at which any of the zones that are bound is watered.</summary>
    private static List<long> WetSeconds(Evidence evidence, Restriction restriction, Zone[] zones, (LocalDate Date, int First, int End) part)
    {
        var bound = zones.Where(zone => Binds(evidence, restriction, zone.Index, part.Date)).Select(zone => evidence.Wet[zone.Index]).ToArray();
        var seconds = new List<long>();
        for (var index = part.First; index < part.End; index++)
        {
            if (Count(bound, index) > 0) seconds.Add(evidence.At(index));
        }

        return seconds;
    }

    private static int Count(bool[][] bits, int index)
    {
        var count = 0;
        foreach (var bit in bits)
        {
            if (bit[index]) count++;
        }

        return count;
    }

    private static bool Binds(Evidence evidence, Restriction restriction, int zone, LocalDate date) =>
        (restriction.Zones.Length == 0 || restriction.Zones.Any(each => each.Index == zone))
        && (restriction.Season is not { } season || ReferenceDays.Holds(season.Span, date, anchor: null))
        && !restriction.Exempt.Any(exemption =>
            exemption.Zones.Any(each => each.Index == zone) && (exemption.Dates is not { } dates || ReferenceDays.Holds(dates.Span, date, anchor: null)));

    /// <summary>Hours by the clock are what it shows; with the sun in them, they are those of the date on which they begin.</summary>
    private static Func<long, bool> Windows(Evidence evidence, Hours hours)
    {
        if (hours is { From: ClockMoment from, To: ClockMoment to })
        {
            return from.SecondOfDay < to.SecondOfDay
                ? second => evidence.ClockOf(second) >= from.SecondOfDay && evidence.ClockOf(second) < to.SecondOfDay
                : second => evidence.ClockOf(second) >= from.SecondOfDay || evidence.ClockOf(second) < to.SecondOfDay;
        }

        var windows = new List<(long From, long To)>();
        var dates = evidence.AllDates.Select(part => part.Date).ToList();
        foreach (var date in dates.Prepend(dates[0].PlusDays(-1)))
        {
            if (evidence.InstantOf(hours.From, date) is not { } begins || evidence.InstantOf(hours.To, date) is not { } ends) continue;
            windows.Add((begins, ends > begins ? ends : evidence.InstantOf(hours.To, date.PlusDays(1)) ?? begins));
        }

        return second => windows.Exists(window => window.From <= second && second < window.To);
    }
}
