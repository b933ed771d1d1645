using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation.Restrictions;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>More zones at a time than a restriction allows.</summary>
internal sealed class ZonesAtATime(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("zones-at-a-time", Severity.Error, "more zones at a time than a restriction allows")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = """
            More zones that a restriction binds are watered at once than `at most … zones at a time` allows. Runs that only touch are not at once.
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
            zone lawn { output 2 }
            restriction town {
              at most 1 zone at a time
            }
            schedule morning {
              every day
              start at 05:50
              steps { water beds + lawn for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            restriction town {
              at most 1 zone at a time
            }
            schedule morning {
              every day
              start at 05:50
              steps { water beds, lawn for 20 min }
            }
            """,
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.TooManyZones).Select(FindingFor);

    private Finding FindingFor(Breach breach) => breach.FindingFor(
        Rule,
        context,
        $"{breach.ScheduleIn(context)} waters {BreachWords.Number(breach.Worst)} zones at a time; {breach.AllowedWords()} allowed",
        $"adds zone {breach.ZoneIn(context).Name} at {context.Time(breach.Moment)}",
        $"{breach.Restriction.Name} allows {BreachWords.Number(breach.Allowed)}",
        "Water them one after the other, with a comma in place of the plus, or start later.");
}
