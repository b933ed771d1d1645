using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Watering skipped because of a hold or closed season.</summary>
internal sealed class CutByHold(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("cut-by-hold", Severity.Advice, "watering skipped because of a hold or closed season")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Adds up what is due and does not run because ground is held dry or the site is closed, so that nobody looks for a fault in the valves.
            """,
        Matters = """
            A hold that was meant for two days and is written for two weeks dries out what it covers.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            hold beds from 2026-06-08 to 2026-06-10 because "new gravel"
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };

    public IEnumerable<Finding> Findings() => SkippedWaterWords.Findings(Rule, context, SkipCause.Hold, SkipCause.ClosedSeason);
}
