using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;

namespace WaterScript.Linting.Rules.Description;

/// <summary>Something described that nothing uses.</summary>
internal sealed class Unused(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("unused", Severity.Advice, "something that nothing uses")
    {
        Category = RuleCategory.Reading,
        IsAboutUse = true,
        CanBeAccepted = true,
        Finds = """
            A tariff, valve, soil, plants, scale, group, sequence or `let` that nothing names, or a zone that no step waters and that is not `spare`.
            """,
        Matters = """
            It is often the leftover of a change, or the sign of a slip: the schedule that should name it names another. Of a zone, somebody
            will believe that it is watered.
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
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2; spare }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 15 min }
            }
            """,
        KnownLimits = "Supplies, controllers, pumps and restrictions are not looked at. What only something unused names counts as used.",
    };

    public IEnumerable<Finding> Findings()
    {
        foreach (var unused in context.Site.Unused)
        {
            yield return Finding.At(Rule, unused.Origin, $"{unused.Kind} {unused.Name} is never used") with { Help = "Use it, or delete it." };
        }

        var watered = ZonesInSteps.Of(context.Site.Schedules);
        foreach (var zone in context.Site.Zones.Where(zone => !zone.IsSpare && !watered.Contains(zone.Index)))
        {
            yield return Finding.At(Rule, zone.Origin, $"zone {zone.Name} is never watered", "no schedule waters it")
                with
            { Help = "Water it in a schedule, or write `spare` in it." };
        }
    }
}
