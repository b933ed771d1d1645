using System.Collections.Immutable;
using WaterScript.Calendars;

namespace WaterScript.Answers.Audit.Clocks;

/// <summary>Measures the clock of a log: where nearly all openings of a week are late by the same time, it is not the waterings that are late.</summary>
internal sealed class ClockMeasure(ZoneClock clock, IReadOnlyList<List<long>> meant, long tolerance)
{
    /// <summary>Farther off, in seconds, nothing is put down to the clock.</summary>
    private const int MostOff = 9_000;

    /// <summary>Openings that agree to so many seconds are late by the same time.</summary>
    private const int Agreeing = 60;

    private const int FewestOpenings = 3;

    /// <summary>Where more was meant near an opening, nobody knows which it is.</summary>
    private const int MostNear = 64;

    /// <summary>Openings of a week that are looked at.</summary>
    private const int MostInWeek = 2_000;

    private const decimal NearlyAll = 0.8m;

    /// <summary>
    /// Where so many are as meant the clock is right. What is watered again and again fits by many clocks, and those of one week may be too many to look at.
    /// </summary>
    private const decimal MostFitting = 0.5m;

    /// <summary>In all, less is no drift.</summary>
    private const int LeastDrift = 30;

    /// <summary>One pass may be late as a whole.</summary>
    private const int LeastSpan = 4 * 3_600;

    private const int MostWeeks = 600;

    /// <summary>The clock; null where it is not off, or nothing shows it.</summary>
    /// <param name="openings">Openings of zones by the log, in order.</param>
    public LogClock? Of(IReadOnlyList<(int Zone, decimal At)> openings)
    {
        if (openings.Count < FewestOpenings || openings[^1].At - openings[0].At < LeastSpan) return null;
        var first = openings[0].At;
        var weeks = openings.GroupBy(opening => (Week: (int)((opening.At - first) / LogClock.Week), Offset: clock.OffsetAt((long)opening.At)))
            .Take(MostWeeks).Select(Measured).OfType<MeasuredWeek>().ToImmutableArray();
        return weeks.Any(week => Math.Abs(week.Ahead) > tolerance) ? Fitted(weeks) : null;
    }

    private MeasuredWeek? Measured(IGrouping<(int Week, int Offset), (int Zone, decimal At)> openings)
    {
        var lates = new List<decimal>();
        var (near, fitting, all, from) = (0, 0, 0, openings.First().At);
        foreach (var (zone, at) in openings.Take(MostInWeek))
        {
            var known = lates.Count;
            AddLates(meant[zone], at, lates);
            if (lates.Count > known) near++;
            if (HasWithin(meant[zone], at, Agreeing)) fitting++;
            if (HasWithin(meant[zone], at, MostOff)) all++;
        }

        if (near < FewestOpenings) return null;
        lates.Sort();
        var best = Best(lates);
        if (best.Count < FewestOpenings || best.Count < near * NearlyAll) return null;
        var late = lates[best.Start + (best.Count / 2)];
        return Math.Abs(late) > Agreeing && fitting >= all * MostFitting ? null : new MeasuredWeek(from, openings.Key.Offset, late, best.Count);
    }

    /// <summary>Whether anything was meant within so many seconds of an opening.</summary>
    private static bool HasWithin(List<long> meant, decimal at, int seconds)
    {
        var low = meant.BinarySearch((long)at - seconds);
        var first = low < 0 ? ~low : low;
        return first < meant.Count && meant[first] <= at + seconds;
    }

    private static void AddLates(List<long> meant, decimal at, List<decimal> lates)
    {
        var low = meant.BinarySearch((long)at - MostOff);
        var start = low < 0 ? ~low : low;
        var end = start;
        while (end < meant.Count && meant[end] <= at + MostOff && end - start <= MostNear) end++;
        if (end - start > MostNear) return;
        for (var index = start; index < end; index++) lates.Add(at - meant[index]);
    }

    /// <summary>Most that agree; of equal ones those that are off the least, and what is not off before all that is not much better.</summary>
    private static (int Start, int Count) Best(List<decimal> lates)
    {
        (int Start, int Count) best = default;
        var (end, zero) = (0, (Start: 0, Count: 0));
        for (var start = 0; start < lates.Count; start++)
        {
            while (end < lates.Count && lates[end] <= lates[start] + Agreeing) end++;
            var found = (Start: start, Count: end - start);
            if (found.Count > best.Count || (found.Count == best.Count && Math.Abs(lates[start]) < Math.Abs(lates[best.Start]))) best = found;
            if (found.Count > zero.Count && lates[start] >= -Agreeing && lates[end - 1] <= Agreeing) zero = found;
        }

        return zero.Count >= best.Count * NearlyAll ? zero : best;
    }

    /// <summary>The season, then a line through what is left of the weeks; where they lie on none, each has its own.</summary>
    private LogClock Fitted(ImmutableArray<MeasuredWeek> weeks)
    {
        var (winter, summer) = Offsets((long)weeks[0].From);
        var hour = summer - winter;
        (long Season, bool IsSummerOff)[] seasons = hour == 0 ? [(0, false)] : [(0, false), (-hour, true), (hour, false)];
        var (season, isSummerOff) = seasons.MinBy(each => weeks.Sum(week => Math.Abs(Rest(week, each.Season, each.IsSummerOff, summer))));
        var rests = weeks.Select(week => (At: (week.From - weeks[0].From) / LogClock.Week, Ahead: Rest(week, season, isSummerOff, summer))).ToList();
        var slope = Slope(rests);
        if (Math.Abs(slope * rests[^1].At) < LeastDrift) slope = 0;
        var start = Median([.. rests.Select(rest => rest.Ahead - (slope * rest.At))]);
        var isStepped = rests.Exists(rest => Math.Abs(rest.Ahead - start - (slope * rest.At)) > Agreeing);
        return new LogClock(weeks, season, isSummerOff, summer, start, slope, isStepped);
    }

    private static decimal Rest(MeasuredWeek week, long season, bool isSummerOff, int summer) =>
        week.Ahead - (week.Offset == summer == isSummerOff ? season : 0);

    private (int Winter, int Summer) Offsets(long at)
    {
        const int HalfYear = 26 * LogClock.Week;
        var offsets = new[] { clock.OffsetAt(at), clock.OffsetAt(at + HalfYear), clock.OffsetAt(at - (HalfYear / 2)), clock.OffsetAt(at + (HalfYear / 2)) };
        return (offsets.Min(), offsets.Max());
    }

    /// <summary>The middle one of the slopes from each week to each later one, so that a few odd weeks do not count.</summary>
    private static decimal Slope(List<(decimal At, decimal Ahead)> rests)
    {
        var slopes = new List<decimal>();
        for (var one = 0; one < rests.Count; one++)
        {
            for (var other = one + 1; other < rests.Count; other++)
            {
                if (rests[other].At > rests[one].At) slopes.Add((rests[other].Ahead - rests[one].Ahead) / (rests[other].At - rests[one].At));
            }
        }

        return slopes.Count == 0 ? 0 : Median(slopes);
    }

    private static decimal Median(List<decimal> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}
