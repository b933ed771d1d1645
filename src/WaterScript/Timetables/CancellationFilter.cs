using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables.Keeping;

namespace WaterScript.Timetables;

/// <summary>
/// Keeps of the planned runs what closed seasons, <c>cut off at</c> lines, holds and <c>keep to</c> leave, in this order. Nothing else moves.
/// </summary>
internal sealed class CancellationFilter(Site site, Holds holds, WorkBudget? budget = null, KeptHours? keptHours = null)
{
    /// <summary>Whether a pass has a run of which anything is left, before the amounts of a day; a pass without one did not run.</summary>
    public bool LeavesAnyOf(in Pass pass, PassPlan plan)
    {
        for (var i = 0; i < plan.Runs.Length; i++)
        {
            budget?.Spend(1, pass.Schedule);
            if (Keep(pass, plan.Runs[i], skipped: null, byAmounts: false) > 0) return true;
        }

        return false;
    }

    /// <summary>Whether a pass is sure to keep all its runs.</summary>
    public bool TakesNothingOf(in Pass pass) =>
        holds.IsNone && pass is { ClosedBy: < 0, CutAt: long.MaxValue, Silence: null } && keptHours?.Binds(pass.Schedule) != true;

    /// <summary>Reports what scale and trim leave out of a pass that is not closed.</summary>
    public static void ReportLeftOut(in Pass pass, PassPlan plan, SkippedWater? skipped)
    {
        if (skipped is null || pass.ClosedBy >= 0) return;
        foreach (var water in plan.LeftOut) skipped.Add(SkipCause.Scale, water.Origin, because: null, water.Zone, pass.Start, water.Scaled);
    }

    /// <summary>The seconds that are left of a planned run; 0 when all is taken.</summary>
    /// <param name="pass">Its pass.</param>
    /// <param name="planned">The run.</param>
    /// <param name="skipped">Called with what is taken; may be null.</param>
    /// <param name="byAmounts">Whether the amounts of a day count, to which restrictions are kept.</param>
    public long Keep(in Pass pass, in PlannedRun planned, SkippedWater? skipped, bool byAmounts = true)
    {
        if (TakesNothingOf(pass)) return planned.Seconds;
        if (pass.ClosedBy >= 0) return Closed(pass, planned, skipped);
        if (pass.Silence is { } silence) return Silenced(pass, planned, silence, skipped);
        var start = pass.Start + planned.Offset;
        var end = Math.Min(start + planned.Seconds, pass.CutAt);
        var uncut = Math.Max(0, end - start);
        if (uncut < planned.Seconds) Cut(pass, planned, planned.Seconds - uncut, skipped);
        budget?.Spend(holds.Count, pass.Schedule);
        if (uncut == 0) return 0;
        if (holds.Take(planned.Zone, start, end, out var left) is not { } hold) return WithinKept(pass, planned, uncut, skipped, byAmounts);
        var kept = Math.Max(0, left - start);
        skipped?.Add(SkipCause.Hold, hold.Origin, hold.Because, site.Zones[planned.Zone], start, uncut - kept);
        return WithinKept(pass, planned, kept, skipped, byAmounts);
    }

    /// <summary>What the restrictions leave that the schedule keeps to: first their dates and hours, then the amounts of a day.</summary>
    private long WithinKept(in Pass pass, in PlannedRun planned, long seconds, SkippedWater? skipped, bool byAmounts)
    {
        if (seconds == 0 || keptHours is not { } restrictions || !restrictions.Binds(pass.Schedule)) return seconds;
        var start = pass.Start + planned.Offset;
        var taker = restrictions.TakeByHours(pass.Schedule, planned.Zone, start, start + seconds, out var left);
        var kept = Restricted(pass, planned, taker, seconds, left - start, skipped);
        if (kept == 0 || !byAmounts) return kept;
        taker = restrictions.TakeByAmounts(pass.Schedule, planned.Zone, start, start + kept, out left);
        return Restricted(pass, planned, taker, kept, left - start, skipped);
    }

    private long Restricted(in Pass pass, in PlannedRun planned, int taker, long seconds, long left, SkippedWater? skipped)
    {
        if (taker < 0) return seconds;
        var keep = site.Schedules[pass.Schedule].Keeps[taker];
        skipped?.Add(SkipCause.Restriction, keep.Origin, keep.Restriction.DisplayName, site.Zones[planned.Zone], pass.Start + planned.Offset, seconds - left);
        return left;
    }

    /// <summary>Why nothing is left of a pass of which nothing is; null where its schedule waters nothing in the first place.</summary>
    public Silence? SilenceOf(in Pass pass, PassPlan plan)
    {
        if (pass.Silence is { } silence) return silence;
        if (pass.ClosedBy >= 0) return new Silence(SkipCause.ClosedSeason, site.ClosedSeasons[pass.ClosedBy].Origin, site.ClosedSeasons[pass.ClosedBy].Because);
        if (plan.Runs.IsEmpty) return plan.LeftOut.IsEmpty ? null : new Silence(SkipCause.Scale, plan.LeftOut[0].Origin, Because: null);
        foreach (var run in plan.Runs)
        {
            var start = pass.Start + run.Offset;
            if (start < pass.CutAt && holds.Take(run.Zone, start, start + run.Seconds, out _) is { } hold)
                return new Silence(SkipCause.Hold, hold.Origin, hold.Because) { Hold = hold };
        }

        if (RestrictionOf(pass, plan) is { } keep) return new Silence(SkipCause.Restriction, keep.Origin, keep.Restriction.DisplayName);

        return site.Schedules[pass.Schedule].Cut is { } cut ? new Silence(SkipCause.Cut, cut.Origin, Because: null) : null;
    }

    private Model.Keeping? RestrictionOf(in Pass pass, PassPlan plan)
    {
        if (keptHours?.Binds(pass.Schedule) != true) return null;
        foreach (var run in plan.Runs)
        {
            var start = pass.Start + run.Offset;
            if (start < pass.CutAt && keptHours.TakeByHours(pass.Schedule, run.Zone, start, start + run.Seconds, out _) is var taker and >= 0)
                return site.Schedules[pass.Schedule].Keeps[taker];
        }

        return null;
    }

    /// <summary>What a hold would have taken of the zone itself counts as taken by it; the rest as dry without being named.</summary>
    private long Silenced(in Pass pass, in PlannedRun planned, Silence silence, SkippedWater? skipped)
    {
        var isNamed = silence.By != SkipCause.Hold || silence.Hold!.Zones.IsEmpty || silence.Hold.Zones.Contains(site.Zones[planned.Zone]);
        skipped?.Add(silence.By, silence.Origin, silence.Because, site.Zones[planned.Zone], pass.Start + planned.Offset, planned.Seconds,
            isNamed && silence.By is SkipCause.Hold or SkipCause.ClosedSeason ? null : site.Schedules[pass.Schedule]);
        return 0;
    }

    private long Closed(in Pass pass, in PlannedRun planned, SkippedWater? skipped)
    {
        var closed = site.ClosedSeasons[pass.ClosedBy];
        skipped?.Add(SkipCause.ClosedSeason, closed.Origin, closed.Because, site.Zones[planned.Zone], pass.Start + planned.Offset, planned.Seconds);
        return 0;
    }

    private void Cut(in Pass pass, in PlannedRun planned, long seconds, SkippedWater? skipped)
    {
        if (site.Schedules[pass.Schedule].Cut is { } cut)
            skipped?.Add(SkipCause.Cut, cut.Origin, because: null, site.Zones[planned.Zone], pass.Start + planned.Offset, seconds);
    }
}
