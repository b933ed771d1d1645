using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Documents.Charts;

/// <summary>Finds what is due and is not watered between two instants.</summary>
/// <param name="timetable">The site's.</param>
/// <param name="from">First second, in Unix seconds.</param>
/// <param name="until">The second after the last.</param>
/// <param name="most">The most that there may be.</param>
internal sealed class HeldWater(Timetable timetable, long from, long until, int most = Diagnostics.Limits.ChartRuns)
{
    /// <summary>All of it, by start.</summary>
    /// <exception cref="ChartTooLargeException">There is more than that.</exception>
    public List<ChartHeld> All()
    {
        var all = new List<ChartHeld>();
        foreach (var run in HeldRun.Of(timetable, from, until))
        {
            if (all.Count == most) throw new ChartTooLargeException();
            all.Add(Of(run));
        }

        return [.. all.OrderBy(each => each.From).ThenBy(each => each.Zone.Index)];
    }

    /// <summary>The dates, in days since 1970-01-01, on which a hold takes something.</summary>
    public HashSet<int> Days()
    {
        var days = new HashSet<int>();
        foreach (var schedule in timetable.Site.Schedules.Where(schedule => !schedule.IsManual && !timetable.Site.Holds.IsEmpty))
        {
            foreach (var pass in timetable.DuePassesOf(schedule))
            {
                timetable.Budget?.Spend(1, pass.Schedule);
                if (timetable.IsWhole(pass) || days.Contains(pass.Day)) continue;
                var skipped = new SkippedWater();
                foreach (var planned in timetable.PlanOf(pass).Runs) timetable.SecondsLeft(pass, planned, skipped);
                if (skipped.Water.Any(cause => cause.By == SkipCause.Hold)) days.Add(pass.Day);
            }
        }

        return days;
    }

    private ChartHeld Of(HeldRun run)
    {
        var (schedule, step) = (timetable.Site.Schedules[run.Pass.Schedule], run.Planned.Step);
        return new ChartHeld(run.Start, run.End, timetable.Site.Zones[run.Planned.Zone], schedule, run.Pass.Start, run.Pass.Day,
            timetable.StepPath(run.Pass.Schedule, step), timetable.StepOf(run.Pass.Schedule, step).Origin, run.Cause.Origin, WordsOf(run.Cause));
    }

    private static string WordsOf(SkippedWatering cause) => cause.By switch
    {
        SkipCause.Hold => cause.Because is { } reason ? $"held: {reason}" : "held",
        SkipCause.ClosedSeason => cause.Because is { } reason ? $"closed season: {reason}" : "closed season",
        SkipCause.Restriction => $"keeps to {cause.Because}",
        _ => "cut off",
    };
}
