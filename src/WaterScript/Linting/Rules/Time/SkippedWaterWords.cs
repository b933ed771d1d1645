using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>What is due and does not come, added up for each cause.</summary>
internal static class SkippedWaterWords
{
    /// <summary>One finding for each line that takes watering away in one of the ways.</summary>
    public static IEnumerable<Finding> Findings(Rule rule, LintContext context, params SkipCause[] ways) =>
        context.Skipped.Water.Where(water => ways.Contains(water.By))
            .GroupBy(water => water.Origin)
            .Select(group => FindingFor(rule, [.. group], context));

    private static Finding FindingFor(Rule rule, IReadOnlyList<SkippedWatering> water, LintContext context)
    {
        var runs = water.Sum(entry => entry.Runs);
        var zones = string.Join(", ", water.Select(entry => $"{entry.Zone.Name} {Phrases.Length(entry.Seconds)}"));
        var heading = $"{CauseOf(water[0].By)} skips {Phrases.Count(runs, "run")}, {Phrases.Length(water.Sum(entry => entry.Seconds))} of watering";
        var range = MomentWords.Range(context.ClockAt(water.Min(entry => entry.First)), context.ClockAt(water.Max(entry => entry.Last)));
        return Finding.At(rule, water[0].Origin, heading) with { Details = $"Not watered: {zones}.\n{range}" };
    }

    private static string CauseOf(SkipCause cause) => cause switch
    {
        SkipCause.Hold => "hold",
        SkipCause.ClosedSeason => "closed season",
        SkipCause.Cut => "`cut off`",
        _ => "scale",
    };
}
