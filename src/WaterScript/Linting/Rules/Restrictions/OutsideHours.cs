using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation.Restrictions;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>Water outside the hours of a restriction.</summary>
internal sealed class OutsideHours(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("outside-hours", Severity.Error, "water outside the hours of a restriction")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = """
            A zone that a restriction binds is watered outside its `allow between` lines. The first moment of such hours is allowed, the last is
            not. Each instant is judged by its own local date and by what the clock shows then; hours may go over midnight.
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
              allow between 20:00 and 06:00
            }
            schedule morning {
              every day
              start at 05:50
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
              allow between 20:00 and 06:00
            }
            schedule morning {
              every day
              start at 05:40
              steps { water beds for 20 min }
            }
            """,
        KnownLimits = """
            On dates without the sunrise or sunset that hours are counted from, the hours are not judged, and the report says so.
            """,
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.OutsideHours).Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => context.Restrictions.Each.Where(entry => entry.Judge.LackedSun).Select(entry =>
        new Gap(Concern.Restrictions, "hours", [Thing.Of(entry.Restriction)], "") { Because = "some dates have no sunrise or sunset" });

    private Finding FindingFor(Breach breach) => breach.FindingFor(
        Rule,
        context,
        $"{breach.ScheduleIn(context)} waters outside the hours that {breach.Restriction.Name} allows",
        $"waters zone {breach.ZoneIn(context).Name} at {context.Time(breach.Moment)}",
        "the allowed hours",
        "Start at another time, or water for less time.");
}
