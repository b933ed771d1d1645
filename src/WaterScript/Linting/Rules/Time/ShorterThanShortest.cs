using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Watering too short to be worth it.</summary>
internal sealed class ShorterThanShortest(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("shorter-than-shortest", Severity.Advice, "watering too short to be worth it")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = "A watering that scale or trim brings to nothing, or under the zone's `shortest`, is left out; one that is written shorter than that is " +
            "taken as meant.",
        Matters = """
            Under a certain time the pipes are hardly full, and the far end gets nothing.
            """,
    };

    public IEnumerable<Finding> Findings() => SkippedWaterWords.Findings(Rule, context, SkipCause.Scale);
}
