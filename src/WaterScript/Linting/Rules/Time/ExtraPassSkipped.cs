using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A pass outside the calendar that a hold or a closed season takes: one asks for water, the other for none.</summary>
internal sealed class ExtraPassSkipped(LintContext context) : IRule
{
    public IEnumerable<Finding> Findings() =>
        context.Site.Schedules.Where(schedule => schedule.IsExtra).SelectMany(extra => Find(extra, context.Timetable));

    private static IEnumerable<Finding> Find(Schedule extra, Timetable timetable)
    {
        var alone = timetable.Site with { Schedules = [extra with { Index = 0 }] };
        var skipped = new SkippedWater();
        foreach (var _ in Timetable.Of(alone, timetable.Horizon).Runs(skipped)) { }

        return skipped.Water.Where(water => water.By is SkipCause.Hold or SkipCause.ClosedSeason)
            .DistinctBy(water => water.Origin)
            .Select(water => FindingFor(extra, water));
    }

    private static Finding FindingFor(Schedule extra, SkippedWatering water)
    {
        var cause = water.By == SkipCause.Hold ? "hold" : "closed season";
        return Finding.At(ReadingRules.Contradiction, extra.Origin, $"an extra pass falls in a {cause}", $"zone {water.Zone.Name} is kept dry then") with
        {
            Others = [new Label(water.Origin, $"the {cause}")],
            Help = $"Give the pass another date, or take it out of the {cause}.",
        };
    }
}
