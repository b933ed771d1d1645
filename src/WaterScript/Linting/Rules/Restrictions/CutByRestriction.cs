using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Rules.Time;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>Watering left out because a schedule keeps to a restriction.</summary>
internal sealed class CutByRestriction(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("cut-by-restriction", Severity.Advice, "watering skipped because of a restriction that is kept to")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = "Adds up what is due and does not run because of a `keep to` line: by days and hours, by `at most N days a week`, and by time, depth or " +
            "volume of a day.",
        Matters = """
            A schedule that keeps to a rule breaks none, and the ground may be dry all the same: what is left out comes at no other time.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            restriction town { allow on odd days }
            keep to town
            schedule evening { every 2 days; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            restriction town { allow on odd days }
            keep to town
            schedule evening { on odd days; start at 20:00; steps { water beds for 10 min } }
            """,
        KnownLimits = "How many zones run at a time, volumes of a week and longer, and allowances take nothing: they are only found.",
    };

    public IEnumerable<Finding> Findings() => SkippedWaterWords.Findings(Rule, context, SkipCause.Restriction);
}
