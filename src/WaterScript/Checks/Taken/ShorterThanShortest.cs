using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Watering too short to be worth it.</summary>
internal sealed class ShorterThanShortest(Survey survey) : ICheck
{
    public static Rule Rule { get; } = new("shorter-than-shortest", Severity.Advice, "watering too short to be worth it")
    {
        CanBeAccepted = true,
        Finds = """
            A watering that scale or trim brings to nothing, or under the zone's `shortest`, is left out; one that is written shorter than that is kept and told.
            """,
        Matters = """
            Under a certain time the pipes are hardly full, and the far end gets nothing.
            """,
    };

    public IEnumerable<Finding> Findings() => TakenWaterWords.Findings(Rule, survey, TakenBy.Scale);
}
