using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A zone of a tank that the pump of that tank does not serve.</summary>
internal sealed class ZoneWithoutPump(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("zone-without-pump", Severity.Warning, "a zone of a tank that no pump serves")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = "A pump serves some zones that are watered from a tank, by its `zones`, and no pump serves another zone of that tank.",
        Matters = """
            The valve of that zone opens by the clock, and the pump stays off: no water comes, or what runs down by itself.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply cistern { flow 20 L/min; tank 4 m3 }
            zone beds { output 1; flow 6 L/min }
            zone pots { output 2; flow 6 L/min }
            pump lift { output 8; zones beds; load 60 mA }
            schedule morning {
              every day
              start at 06:00
              steps { water beds, pots for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply cistern { flow 20 L/min; tank 4 m3 }
            zone beds { output 1; flow 6 L/min }
            zone pots { output 2; flow 6 L/min }
            pump lift { output 8; zones beds, pots; load 60 mA }
            schedule morning {
              every day
              start at 06:00
              steps { water beds, pots for 10 min }
            }
            """,
        KnownLimits = "A tank of which no zone has a pump is taken to stand high enough. A zone below the tank, which needs no pump beside zones that do, is " +
            "found: accept it. Zones that are `spare` or `hand-watered` are not looked at.",
    };

    public IEnumerable<Finding> Findings() => context.Site.Zones
        .Where(zone => zone is { IsSpare: false, IsHandWatered: false } && TankOf(zone) is not null)
        .GroupBy(zone => TankOf(zone)!.Index)
        .SelectMany(OfTank);

    /// <summary>The tank that a zone draws from, or null.</summary>
    private static Supply? TankOf(Zone zone) => Demand.Above(zone.Supply).FirstOrDefault(supply => supply.Tank is not null);

    private IEnumerable<Finding> OfTank(IEnumerable<Zone> zones)
    {
        Device[] pumps = [.. context.Site.Devices.Where(device => device.Kind == DeviceKind.Pump && zones.Any(device.RunsBecauseOf))];
        if (pumps.Length == 0) yield break;
        foreach (var zone in zones.Where(zone => !pumps.Any(pump => pump.RunsBecauseOf(zone)))) yield return FindingFor(zone, pumps[0]);
    }

    private static Finding FindingFor(Zone zone, Device pump) =>
        Finding.At(Rule, zone.Origin, $"no pump serves zone {zone.Name}, though {pump.Name} serves others of its tank", "no pump starts for it") with
        {
            Others = [new Label(pump.Origin, $"serves {Phrases.Names([.. pump.Zones.Select(served => served.Name).Take(4)])}")],
            Help = $"Add {zone.Name} to the `zones` of pump {pump.Name}, or write `supply {TankOf(zone)!.Name}` in their place.",
        };
}
