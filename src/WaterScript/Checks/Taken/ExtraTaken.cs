using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A pass outside the calendar that a hold or a closed season takes: one wants water, the other wants none.</summary>
internal sealed class ExtraTaken(Survey survey) : ICheck
{
    public IEnumerable<Finding> Findings() =>
        survey.Site.Schedules.Where(schedule => schedule.IsExtra).SelectMany(extra => Find(extra, survey.Timetable));

    private static IEnumerable<Finding> Find(Schedule extra, Timetable timetable)
    {
        var alone = timetable.Site with { Schedules = [extra with { Index = 0 }] };
        var taken = new Taken();
        foreach (var _ in Timetable.Of(alone, timetable.Horizon).Runs(taken)) { }

        return taken.Water.Where(water => water.By is TakenBy.Hold or TakenBy.ClosedSeason)
            .DistinctBy(water => water.Origin)
            .Select(water => FindingFor(extra, water));
    }

    private static Finding FindingFor(Schedule extra, TakenWater water)
    {
        var cause = water.By == TakenBy.Hold ? "hold" : "closed season";
        return Finding.At(Rules.Contradiction, extra.Origin, $"an extra pass lies in a {cause}", $"{water.Zone.DisplayName} is kept dry then") with
        {
            Others = [new Label(water.Origin, $"the {cause}")],
            WayOut = $"Give the pass another date, or take it out of the {cause}.",
        };
    }
}
