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
        var zones = string.Join(", ", water.Select(entry => $"{entry.Zone.DisplayName} {Phrases.Length(entry.Seconds)}"));
        return Finding.At(rule, water[0].Origin, rule.Title,
            $"takes {Phrases.Length(water.Sum(entry => entry.Seconds))} from {Phrases.Count(runs, "run")}") with
        {
            Details = $"{zones}.\nFirst due {context.Moment(water.Min(entry => entry.First))}, last {context.Moment(water.Max(entry => entry.Last))}.",
        };
    }
}
