using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;

namespace WaterScript.Linting.Rules.Water;

/// <summary>An injector on water that only an atmospheric vacuum breaker keeps from flowing back.</summary>
internal sealed class InjectorBackflow(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("injector-backflow", Severity.Error, "an injector behind an atmospheric vacuum breaker")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            An injector serves a zone whose supply, or one that feeds it with no tank between, has `backflow atmospheric`.
            """,
        Matters = """
            What is dosed can be sucked back into the pipes that people drink from. An atmospheric vacuum breaker does not hold against the pressure of an
            injector, nor of a pump behind it.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 18 L/min; backflow atmospheric }
            zone beds { output 1; flow 12 L/min }
            injector feeder { output 7; zones beds; load 40 mA }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 14 min through feeder }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 18 L/min }
            zone beds { output 1; flow 12 L/min }
            injector feeder { output 7; zones beds; load 40 mA }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 14 min through feeder }
            }
            """,
        KnownLimits = "A supply without `backflow` is not looked at: which protection it has is not known. What is allowed where is a matter of the local " +
            "code and of licensed practice; this finding does not replace either.",
        Sources = "Common practice: behind dosing, a reduced-pressure device or an air gap. The authority's text governs.",
    };

    public IEnumerable<Finding> Findings() =>
        from device in context.Site.Devices
        where device.Kind == DeviceKind.Injector
        from supply in device.Zones.SelectMany(zone => Simulation.Water.Demand.Above(zone.Supply)).Distinct()
        where supply.Backflow is not null
        select FindingFor(device, supply);

    private static Finding FindingFor(Device injector, Supply supply) =>
        Finding.At(Rule, injector.Origin, $"injector {injector.Name} doses behind the vacuum breaker of {supply.Name}", "doses into its water") with
        {
            Others = [new Label(supply.Backflow!.Value.Place, "does not protect from what is dosed")],
            Help = "Feed the zones from a tank behind an air gap, or have a reduced-pressure device built in and delete `backflow atmospheric`.",
        };
}
