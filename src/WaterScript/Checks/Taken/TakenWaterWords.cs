using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>What is due and does not come, added up for each cause.</summary>
internal static class TakenWaterWords
{
    /// <summary>One finding for each line that takes watering away in one of the ways.</summary>
    public static IEnumerable<Finding> Findings(Rule rule, Survey survey, params TakenBy[] ways) =>
        survey.Taken.Water.Where(water => ways.Contains(water.By))
            .GroupBy(water => water.Origin)
            .Select(group => FindingFor(rule, [.. group], survey));

    private static Finding FindingFor(Rule rule, IReadOnlyList<TakenWater> water, Survey survey)
    {
        var runs = water.Sum(entry => entry.Runs);
        var zones = string.Join(", ", water.Select(entry => $"{entry.Zone.DisplayName} {Wording.Length(entry.Seconds)}"));
        return Finding.At(rule, water[0].Origin, rule.Title, $"takes {Wording.Length(water.Sum(entry => entry.Seconds))} from {Wording.Count(runs, "run")}") with
        {
            Details = $"{zones}.\nFirst due {survey.Moment(water.Min(entry => entry.First))}, last {survey.Moment(water.Max(entry => entry.Last))}.",
        };
    }
}
