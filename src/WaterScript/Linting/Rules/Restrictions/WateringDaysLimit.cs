using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Restrictions;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>Water on more days of a week than a restriction allows.</summary>
internal sealed class WateringDaysLimit(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("watering-days-limit", Severity.Error, "water on more days of a week than a restriction allows")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = """
            A zone, or the site where the line does not say `per zone`, is watered on more local dates of one week than `at most … days a week`
            allows. A week is Monday to Sunday unless the restriction says `week starts`; a run over midnight counts for both dates.
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
              at most 2 days a week
            }
            schedule morning {
              on mon, wed, fri
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
              at most 2 days a week
            }
            schedule morning {
              on mon, fri
              start at 05:50
              steps { water beds for 20 min }
            }
            """,
        KnownLimits = """
            Where several schedules share a week, the one that makes one day over the limit is named.
            """,
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.WateringDaysLimit).Select(FindingFor);

    private Finding FindingFor(Breach breach) => breach.FindingFor(
        Rule,
        context,
        $"{breach.ScheduleIn(context)} waters {BreachWords.Number(breach.Worst)} days a week; {breach.AllowedWords()} allowed",
        $"{MomentWords.Date(context.ClockAt(breach.Moment).Date)} is one day over",
        $"{breach.Restriction.Name} allows {BreachWords.Number(breach.Allowed)}",
        "Water on fewer days, for longer.",
        DaysOf(context.Site.Schedules[breach.First.Schedule]));

    /// <summary>The line that names the days, where there is one such; else the start is marked.</summary>
    private static Location? DaysOf(Schedule schedule) => schedule.DayLines is [var only] ? only.Origin : null;
}
