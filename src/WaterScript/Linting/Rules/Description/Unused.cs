using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables.Keeping;

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
            A tariff, valve, soil, plants, scale, group, sequence or `let` that nothing names, a zone that no step waters and that is not `spare`, or
            a `keep to` of a restriction that has nothing to keep to or binds no zone of the schedule.
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

        foreach (var finding in KeepsForNothing()) yield return finding;
        var watered = ZonesInSteps.Of(context.Site.Schedules);
        foreach (var zone in context.Site.Zones.Where(zone => !zone.IsSpare && !watered.Contains(zone.Index)))
        {
            yield return Finding.At(Rule, zone.Origin, $"zone {zone.Name} is never watered", "no schedule waters it")
                with
            { Help = zone.IsHandWatered ? "Water it in a schedule, or delete it." : "Water it in a schedule, or write `spare` in it." };
        }
    }

    /// <summary>Lines by which schedules keep to a restriction that has nothing to keep to, or binds none of their zones.</summary>
    private IEnumerable<Finding> KeepsForNothing()
    {
        var lines = context.Site.Schedules.SelectMany(schedule => schedule.Keeps.Select(keep => (Keep: keep, Schedule: schedule)));
        foreach (var line in lines.GroupBy(each => each.Keep.Origin))
        {
            var (keep, name) = (line.First().Keep, line.First().Keep.Restriction.Name);
            if (!KeptRestriction.CanBeKept(keep.Restriction))
                yield return Finding.At(Rule, keep.Origin, $"restriction {name} has nothing that a schedule can keep to", "does nothing") with
                {
                    Others = [new Label(keep.Restriction.Origin, "the restriction")],
                    Help = "Add days, hours, or `at most` days a week, time, depth or volume a day to it, or delete this line.",
                };
            else if (!line.Any(each => ZonesInSteps.Of([each.Schedule]).Any(zone => CanBind(keep.Restriction, zone))))
                yield return Finding.At(Rule, keep.Origin, $"restriction {name} binds no zone that is watered here", "does nothing") with
                {
                    Others = [new Label(keep.Restriction.Origin, "the restriction")],
                    Help = "Delete this line, or correct its `for` or `exempt`.",
                };
        }
    }

    private bool CanBind(Restriction restriction, int zone) => new RestrictionReach(restriction, context.Site).CanBind(zone);
}
