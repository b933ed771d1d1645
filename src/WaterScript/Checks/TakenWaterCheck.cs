using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>What is due and does not come, added up for each cause.</summary>
internal abstract class TakenWaterCheck(Rule rule, params TakenBy[] causes) : ICheck
{
    public IEnumerable<Finding> Find(ScheduleSurvey survey) =>
        survey.Taken.Water.Where(water => causes.Contains(water.By))
            .GroupBy(water => water.Origin)
            .Select(group => FindingFor([.. group], survey));

    private Finding FindingFor(IReadOnlyList<TakenWater> water, ScheduleSurvey survey)
    {
        var zone = survey.Timetable.Site.TimeZone;
        var runs = water.Sum(entry => entry.Runs);
        var zones = string.Join(", ", water.Select(entry => $"{entry.Zone.DisplayName} {Wording.Length(entry.Seconds)}"));
        return Finding.At(rule, water[0].Origin, rule.Title, $"takes {Wording.Length(water.Sum(entry => entry.Seconds))} from {Wording.Count(runs, "run")}") with
        {
            Details = $"{zones}.\nFirst due {Wording.Moment(water.Min(entry => entry.First), zone)}, last {Wording.Moment(water.Max(entry => entry.Last), zone)}.",
        };
    }
}

/// <summary>What a <c>cut at</c> line takes.</summary>
internal sealed class CutShortCheck() : TakenWaterCheck(Rules.CutShort, TakenBy.Cut);

/// <summary>What a hold or a closed season takes.</summary>
internal sealed class CutByHoldCheck() : TakenWaterCheck(Rules.CutByHold, TakenBy.Hold, TakenBy.ClosedSeason);

/// <summary>What scale and trim leave out.</summary>
internal sealed class ShorterThanShortestCheck() : TakenWaterCheck(Rules.ShorterThanShortest, TakenBy.Scale);
