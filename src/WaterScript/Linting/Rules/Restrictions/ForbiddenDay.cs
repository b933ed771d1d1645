using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation.Restrictions;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>Water on a day that a restriction forbids.</summary>
internal sealed class ForbiddenDay(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("forbidden-day", Severity.Error, "water on a day that a restriction forbids")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = """
            A zone that a restriction binds is watered on a date that its `allow on` lines do not name, or that an `except` line skips. A run
            over midnight waters on both dates.
            """,
        Matters = """
            Local rules carry fines, and they are there because water is short.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            restriction town {
              allow on odd days
            }
            schedule morning {
              on odd days
              start at 23:50
              steps { water beds for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            restriction town {
              allow on odd days
            }
            schedule morning {
              on odd days
              start at 23:40
              steps { water beds for 20 min }
            }
            """,
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.ForbiddenDay).Select(FindingFor);

    private Finding FindingFor(Breach breach) => breach.FindingFor(
        Rule,
        context,
        $"{breach.ScheduleIn(context)} waters on days that {breach.Restriction.Name} forbids",
        $"waters zone {breach.ZoneIn(context).Name} on {MomentWords.Date(context.ClockAt(breach.Moment).Date)}",
        "that day is not allowed",
        "Give the schedule the days of the restriction, and let it be over by midnight.");
}
