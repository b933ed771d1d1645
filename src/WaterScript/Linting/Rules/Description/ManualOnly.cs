using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;

namespace WaterScript.Linting.Rules.Description;

/// <summary>A zone that only manual schedules water.</summary>
internal sealed class ManualOnly(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("manual-only", Severity.Warning, "a zone watered only by manual schedules")
    {
        Category = RuleCategory.Reading,
        IsAboutUse = true,
        CanBeAccepted = true,
        Finds = """
            A zone stands in the steps of `manual` schedules and in no others.
            """,
        Matters = """
            A walk through all zones makes it look as if every zone were taken care of. Without somebody who starts it, this one stays dry.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 15 min }
            }
            schedule test {
              manual
              steps { water all for 1 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds, lawn for 15 min }
            }
            schedule test {
              manual
              steps { water all for 1 min }
            }
            """,
        KnownLimits = """
            A site whose schedules are all manual is left alone. A zone that no step names at all is the matter of `unused`; one whose
            schedule is never due, of `never-due`.
            """,
    };

    public IEnumerable<Finding> Findings()
    {
        var byItself = ZonesInSteps.Of(context.Site.Schedules.Where(schedule => !schedule.IsManual));
        if (byItself.Count == 0) yield break;
        foreach (var schedule in context.Site.Schedules.Where(schedule => schedule.IsManual))
        {
            foreach (var index in ZonesInSteps.Of([schedule]).Order())
            {
                if (!byItself.Add(index)) continue;
                var zone = context.Site.Zones[index];
                yield return Finding.At(Rule, zone.Origin, $"zone {zone.Name} is watered only by manual schedules", "no schedule with days names it") with
                {
                    Others = [new Label(schedule.Origin, "waters it when somebody starts it")],
                    Help = "Add it to a schedule with days, or accept it.",
                };
            }
        }
    }
}
