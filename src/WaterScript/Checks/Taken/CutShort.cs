using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Watering that a `cut at` line takes.</summary>
internal sealed class CutShort(Survey survey) : ICheck
{
    public static Rule Rule { get; } = new("cut-short", Severity.Advice, "watering that a `cut at` line takes")
    {
        CanBeAccepted = true,
        Finds = """
            Adds up what would run after a schedule's `cut at` moment and therefore does not run, so that nobody looks for a fault in the valves.
            """,
    };

    public IEnumerable<Finding> Findings() => TakenWaterWords.Findings(Rule, survey, TakenBy.Cut);
}
