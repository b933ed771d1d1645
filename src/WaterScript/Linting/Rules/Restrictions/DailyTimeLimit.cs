using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation.Restrictions;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>More watering time in a day than the restriction allows.</summary>
internal sealed class DailyTimeLimit(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("daily-time-limit", Severity.Error, "more watering time in a day than the restriction allows")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = """
            A zone, or the site where the line does not say `per zone`, is watered for longer in one local date than `at most … a day` allows. Time in
            which several zones run counts once for the site. A run over midnight is split there.
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
              at most 30 min a day per zone
            }
            schedule morning {
              every day
              start at 05:50
              repeat every 2 h for 2 passes
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
              at most 30 min a day per zone
            }
            schedule morning {
              every day
              start at 05:50
              repeat every 2 h for 2 passes
              steps { water beds for 15 min }
            }
            """,
        KnownLimits = """
            Where several schedules water on a date, the one that brings it over the limit is named.
            """,
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.DailyTimeLimit).Select(FindingFor);

    private Finding FindingFor(Breach breach) => breach.FindingFor(
        Rule,
        context,
        $"{breach.ScheduleIn(context)} waters {Phrases.Length((long)breach.Worst)} in a day; {Phrases.Length((long)breach.Allowed)} is allowed",
        $"too long for zone {breach.ZoneIn(context).Name} from {context.Moment(breach.Moment)}",
        $"{breach.Restriction.Name} allows {Phrases.Length((long)breach.Allowed)}",
        "Water for less time, or on more days.");
}
