using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>
/// A watering that is due and does not come, or the part of it that does not, because of a hold, a closed season, a restriction or a <c>cut off at</c> line.
/// </summary>
/// <param name="Pass">Its pass.</param>
/// <param name="Planned">The run, as planned.</param>
/// <param name="Start">The first second that is taken, in Unix seconds.</param>
/// <param name="End">The second after the last.</param>
/// <param name="Cause">What takes it.</param>
internal sealed record HeldRun(Pass Pass, PlannedRun Planned, long Start, long End, SkippedWatering Cause)
{
    /// <summary>All that is due between two instants, pass after pass. What scale and trim leave out is not among it: it was never due.</summary>
    /// <param name="timetable">The site's.</param>
    /// <param name="from">First second, in Unix seconds.</param>
    /// <param name="until">The second after the last.</param>
    public static IEnumerable<HeldRun> Of(Timetable timetable, long from = long.MinValue, long until = long.MaxValue)
    {
        if (timetable.Site.Holds.IsEmpty && timetable.Site.ClosedSeasons.IsEmpty
            && timetable.Site.Schedules.All(schedule => schedule is { Cut: null, Keeps.IsEmpty: true })) yield break;
        foreach (var pass in timetable.DuePasses())
        {
            if (pass.Start >= until) yield break;
            timetable.Budget?.Spend(1, pass.Schedule);
            if (timetable.IsWhole(pass) || (from > long.MinValue && pass.Start + timetable.SecondsOf(pass) <= from)) continue;
            foreach (var run in OfPass(timetable, pass).Where(run => run.End > from && run.Start < until)) yield return run;
        }
    }

    /// <summary>The first of them, by their starts, and how many more there are.</summary>
    /// <param name="timetable">The site's.</param>
    /// <param name="most">The most to keep.</param>
    /// <param name="isWanted">Which of them count.</param>
    public static (IReadOnlyList<HeldRun> Runs, long More) First(Timetable timetable, int most, Func<HeldRun, bool> isWanted)
    {
        var (kept, more) = (new List<HeldRun>(), 0L);
        foreach (var run in Of(timetable).Where(isWanted))
        {
            if (kept.Count < most) kept.Add(run);
            else more++;
        }

        return ([.. kept.OrderBy(run => run.Start).ThenBy(run => run.Planned.Zone)], more);
    }

    private static IEnumerable<HeldRun> OfPass(Timetable timetable, Pass pass)
    {
        foreach (var planned in timetable.PlanOf(pass).Runs)
        {
            // Most runs come as they are planned: what takes one is only asked for where something does.
            if (timetable.SecondsLeft(pass, planned) >= planned.Seconds) continue;
            var skipped = new SkippedWater();
            var left = timetable.SecondsLeft(pass, planned, skipped);
            if (skipped.Water.FirstOrDefault() is not { } cause) continue;
            var start = pass.Start + planned.Offset;
            yield return new HeldRun(pass, planned, start + left, start + planned.Seconds, cause);
        }
    }
}
