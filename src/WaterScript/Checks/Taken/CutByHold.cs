using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Watering that a hold or a closed season takes.</summary>
internal sealed class CutByHold(Survey survey) : ICheck
{
    public static Rule Rule { get; } = new("cut-by-hold", Severity.Advice, "watering that a hold or a closed season takes")
    {
        CanBeAccepted = true,
        Finds = """
            Adds up what is due and does not run because ground is held dry or the site is closed, so that nobody looks for a fault in the valves.
            """,
    };

    public IEnumerable<Finding> Findings() => TakenWaterWords.Findings(Rule, survey, TakenBy.Hold, TakenBy.ClosedSeason);
}
