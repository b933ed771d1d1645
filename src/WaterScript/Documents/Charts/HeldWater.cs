using WaterScript.Timetables;

namespace WaterScript.Documents.Charts;

/// <summary>Finds what is due and is not watered between two instants.</summary>
/// <param name="timetable">The site's.</param>
/// <param name="from">First second, in Unix seconds.</param>
/// <param name="until">The second after the last.</param>
/// <param name="most">The most that there may be.</param>
internal sealed class HeldWater(Timetable timetable, long from, long until, int most = Diagnostics.Limits.ChartRuns)
{
    /// <summary>What scale and trim leave out is not among it: it was never due.</summary>
    public List<ChartHeld> All()
    {
        var all = new List<ChartHeld>();
        foreach (var schedule in timetable.Site.Schedules.Where(schedule => !schedule.IsManual))
        {
            foreach (var pass in timetable.DuePassesOf(schedule))
            {
                if (pass.Start >= until) break;
                timetable.Budget?.Spend(1, pass.Schedule);
                if (!timetable.IsWhole(pass) && pass.Start + timetable.SecondsOf(pass) > from) all.AddRange(Of(pass));
                if (all.Count > most) throw new ChartTooLargeException();
            }
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

    private IEnumerable<ChartHeld> Of(Pass pass)
    {
        var schedule = timetable.Site.Schedules[pass.Schedule];
        foreach (var planned in timetable.PlanOf(pass).Runs)
        {
            var (start, end) = (pass.Start + planned.Offset, pass.Start + planned.Offset + planned.Seconds);
            if (end <= from || start >= until) continue;
            var skipped = new SkippedWater();
            var left = timetable.SecondsLeft(pass, planned, skipped);
            if (left >= planned.Seconds || skipped.Water.FirstOrDefault() is not { } cause) continue;
            var step = timetable.StepOf(pass.Schedule, planned.Step);
            yield return new ChartHeld(start + left, end, timetable.Site.Zones[planned.Zone], schedule, pass.Start, pass.Day,
                timetable.StepPath(pass.Schedule, planned.Step), step.Origin, cause.Origin, WordsOf(cause));
        }
    }

    private static string WordsOf(SkippedWatering cause) => cause.By switch
    {
        SkipCause.Hold => cause.Because is { } reason ? $"held: {reason}" : "held",
        SkipCause.ClosedSeason => cause.Because is { } reason ? $"closed season: {reason}" : "closed season",
        _ => "cut off",
    };
}
