using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>A wire so long and thin that the valve at its end does not get the voltage that it works from.</summary>
internal sealed class VoltageDrop(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("voltage-drop", Severity.Warning, "too little voltage at the end of the wire")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "Takes the voltage that a zone's wire loses, out and back, at the inrush current of its valve from that of the power supply, and holds the " +
            "rest against what the valve works from. Where the power supply gives less than that to begin with, no wire has to be known.",
        Matters = """
            A valve at the end of a thin wire opens on the bench and not in the ground; it hums, stays shut, and is replaced by another that does the same.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 4
              power { transformer 40 VA at 24 V }
            }
            valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 22 V }
            zone far { output 1; valve ac24; wire 250 m 1.5 mm2 }
            schedule morning {
              every day
              start at 06:00
              steps { water far for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 4
              power { transformer 40 VA at 24 V }
            }
            valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 22 V }
            zone far { output 1; valve ac24; wire 250 m 2.5 mm2 }
            schedule morning {
              every day
              start at 06:00
              steps { water far for 10 min }
            }
            """,
        KnownLimits = "Out and back are taken to be of one section, and the wire to be copper at 20 °C. A return that several valves share loses more when " +
            "they open together. Of a latching valve the resistance of the wire is added to\n" +
            "that of its coil. An old transformer may give less than is written on it. Thicker wires are proposed up to 10 mm2, or 10 AWG.",
        Sources = "U = I · (R out + R back). Resistance of copper conductors: IEC 60228:2004, class 1 and 2; American Wire Gauge, ASTM B258.",
    };

    public IEnumerable<Finding> Findings() => [.. SupplyVoltage.Findings(Rule, context.Site), .. context.Site.Zones.Select(Judge).OfType<Finding>()];

    public IEnumerable<Gap> NotChecked() =>
        Gap.Each(Concern.Wires, "wires", context.Site.Zones.Where(zone => !zone.IsSpare).Select(zone => (Thing.Of(zone), LacksFor(zone))));

    /// <summary>The statement that is missing first to judge a zone, or null.</summary>
    private static string? LacksFor(Zone zone)
    {
        if (zone.WireLength is null || zone.WireSection is null) return "wire";
        if (zone.Valve is null) return "valve";
        if (zone.Valve.MinimumVoltage is null) return "minimum-voltage";
        if (zone.Valve is LatchingValve) return PulseValve.LacksFor(zone.Controller, zone.Valve);
        if (VoltsOf(zone.Controller) is null) return "power";
        return zone.Valve is NonLatchingValve { Inrush: null } ? "inrush" : null;
    }

    private static decimal? VoltsOf(Controller controller) => Electricity.VoltsOf(controller.Power)?.InBase;

    private static Finding? Judge(Zone zone)
    {
        if (LacksFor(zone) is not null || SupplyVoltage.IsTooLow(zone.Controller, zone.Valve)) return null;
        var (length, section) = (zone.WireLength!.Value, zone.WireSection!.Value);
        if (Reaches(zone, length, section)) return null;
        return zone.Valve is NonLatchingValve valve
            ? Held(zone, length, section, valve.Inrush!.Value.InBase)
            : Pulsed(zone, length, section);
    }

    /// <summary>Voltage that the valve gets as it opens.</summary>
    private static decimal VoltsAt(Zone zone, Quantity length, Quantity section) => zone.Valve is NonLatchingValve valve
        ? VoltsOf(zone.Controller)!.Value - Electricity.VoltageDrop(valve.Inrush!.Value.InBase, length, section)
        : (decimal)PulseValve.On(zone.Controller, zone.Valve!)!.VoltsThrough((double)(2 * Electricity.WireOhms(length, section)));

    /// <summary>Voltage that the wire takes of what the valve would get without it.</summary>
    private static decimal Lost(Zone zone, Quantity length, Quantity section) =>
        VoltsAt(zone, new Quantity(0, length.Unit), section) - VoltsAt(zone, length, section);

    private static bool Reaches(Zone zone, Quantity length, Quantity section) => VoltsAt(zone, length, section) >= zone.Valve!.MinimumVoltage!.Value.InBase;

    private static Finding Held(Zone zone, Quantity length, Quantity section, decimal inrush)
    {
        var drop = Electricity.VoltageDrop(inrush, length, section);
        return FindingFor(zone, length, section,
            $"{length} of {section} lose {Volts(drop)} V of {Volts(VoltsOf(zone.Controller)!.Value)} V at {Phrases.Number(inrush, 2)} A, out and back.");
    }

    private static Finding? Pulsed(Zone zone, Quantity length, Quantity section)
    {
        var pulse = PulseValve.On(zone.Controller, zone.Valve!)!;
        if (pulse.IsTooWeakFromFull) return null;
        var wire = 2 * Electricity.WireOhms(length, section);
        return FindingFor(zone, length, section,
            $"{length} of {section} add {Phrases.Number(wire, 2)} ohm, out and back, to the {Phrases.Number((decimal)pulse.Ohms, 1)} ohm of the coil.");
    }

    private static Finding FindingFor(Zone zone, Quantity length, Quantity section, string details) =>
        Finding.At(Rule, zone.WireLength!.Value.Place,
            $"valve of zone {zone.Name} gets {Under(VoltsAt(zone, length, section), zone.Valve!.MinimumVoltage!.Value.InBase)} V, " +
                $"needs {zone.Valve!.MinimumVoltage}",
            $"loses {Volts(Lost(zone, length, section))} V") with
        {
            Others = [new Label(zone.Valve!.MinimumVoltage!.Value.Place, $"needs {zone.Valve!.MinimumVoltage}")],
            Details = details,
            Help = Help(zone, length, section),
        };

    /// <summary>The thinnest section of the tables that does, and how long the present one may be, in whole units of its length.</summary>
    private static string Help(Zone zone, Quantity length, Quantity section)
    {
        var longest = Bisection.First(1, (long)Math.Ceiling(length.Value), units => !Reaches(zone, new Quantity(units, length.Unit), section))!.Value - 1;
        if (longest == 0)
            return "Use a valve that needs less, or a higher voltage: no wire is enough.";
        var thicker = Electricity.Thicker(section).ToArray();
        var most = $"A wire of {section} may be {new Quantity(longest, length.Unit)} long.";
        if (thicker.Where(other => Reaches(zone, length, other)).Take(1).ToArray() is [var enough]) return $"Lay a wire of {enough} or thicker. {most}";
        return thicker.Length > 0
            ? $"Shorten the wire, or lay a second conductor beside it: no single wire of up to {thicker[^1]} is enough. {most}"
            : $"Shorten the wire, or lay a second conductor beside it. {most}";
    }

    /// <summary>A voltage to a tenth, or more where it would look like the one that it is below.</summary>
    private static string Under(decimal volts, decimal needed) =>
        Enumerable.Range(1, 3).Select(digits => Phrases.Number(volts, digits))
            .FirstOrDefault(words => decimal.Parse(words, CultureInfo.InvariantCulture) < needed) ?? Volts(volts);

    private static string Volts(decimal volts) => Phrases.Number(volts, 3).TrimEnd('0').TrimEnd('.');
}
