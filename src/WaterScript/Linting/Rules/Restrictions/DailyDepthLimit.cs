using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation.Restrictions;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>More water in a day than a restriction allows.</summary>
internal sealed class DailyDepthLimit(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("daily-depth-limit", Severity.Error, "more water in a day than a restriction allows")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = """
            A zone gets a greater depth in one local date than `at most … mm a day` allows: its application rate times its run time, before any loss.
            """,
        Matters = """
            Local rules carry fines, and they are there because water is short.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; flow 20 L/min; area 20 m2 }
            restriction town {
              at most 19 mm a day per zone
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
            zone beds { output 1; flow 20 L/min; area 20 m2 }
            restriction town {
              at most 19 mm a day per zone
            }
            schedule morning {
              every day
              start at 05:50
              steps { water beds for 18 min }
            }
            """,
        KnownLimits = """
            A zone without a `rate`, or a flow and an `area`, cannot be judged; the report names it. The line means each zone with or without `per zone`.
            """,
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.DailyDepthLimit).Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => context.Restrictions.Each.SelectMany(entry => Gap.Each(
        Concern.Restrictions, $"daily depth under {entry.Restriction.Name}",
        entry.Judge.WithoutRate(context.Site).Select(zone => (Thing.Of(zone), (string?)"rate"))));

    private Finding FindingFor(Breach breach) => breach.FindingFor(
        Rule,
        context,
        $"{breach.ScheduleIn(context)} gives {BreachWords.Number(breach.Worst)} mm in a day; {BreachWords.Number(breach.Allowed)} mm is allowed",
        $"too much for zone {breach.ZoneIn(context).Name} from {context.Moment(breach.Moment)}",
        $"{breach.Restriction.Name} allows {BreachWords.Number(breach.Allowed)} mm",
        "Water for less time, or on more days.");
}
