using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Watering that a `cut off at` line takes.</summary>
internal sealed class CutShort(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("cut-short", Severity.Advice, "watering that a `cut off at` line takes")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Adds up what would run after a schedule's `cut off at` moment and therefore does not run, so that nobody looks for a fault in the valves.
            """,
        Matters = """
            What is cut is always the end of the round, so it is the same zones that stay dry each time.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; cut off at 20:05; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; cut off at 20:15; steps { water beds for 10 min } }
            """,
    };

    public IEnumerable<Finding> Findings() => SkippedWaterWords.Findings(Rule, context, SkipCause.Cut);
}
