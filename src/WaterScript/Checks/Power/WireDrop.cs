using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Checks;

/// <summary>A wire so long and thin that the valve at its end does not get the voltage that it works from.</summary>
internal sealed class WireDrop(Survey survey) : ICheck
{
    public static Rule Rule { get; } = new("wire-drop", Severity.Warning, "too little voltage at the end of the wire")
    {
        CanBeAccepted = true,
        Finds = """
            Takes the voltage that a zone's wire loses, out and back, at the inrush current of its valve from that of the power supply, and holds the rest against what the valve works from.
            """,
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
            valve ac24 non-latching { inrush 400 mA; holding 220 mA; works-from 22 V }
            zone far { output 1; valve ac24; wire 250 m 1.5 mm2 }
            schedule morning {
              every day
              start at 06:00
              steps { water far for 10 min }
            }
            """,
        Mended = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 4
              power { transformer 40 VA at 24 V }
            }
            valve ac24 non-latching { inrush 400 mA; holding 220 mA; works-from 22 V }
            zone far { output 1; valve ac24; wire 250 m 2.5 mm2 }
            schedule morning {
              every day
              start at 06:00
              steps { water far for 10 min }
            }
            """,
        KnownLimits = """
            Out and back are taken to be of one section, and the wire to be copper at 20 °C. A return that several valves share loses more when they open together. Of a latching valve the resistance of the wire is added to
            that of its coil. An old transformer may give less than is written on it.
            """,
        Sources = "U = I · (R out + R back). Resistance of copper conductors: IEC 60228:2004, class 1 and 2; American Wire Gauge, ASTM B258.",
    };

    public IEnumerable<Finding> Findings() => survey.Site.Zones.Select(Judge).OfType<Finding>();

    public IEnumerable<string> NotChecked() => survey.Site.Zones.Where(zone => !zone.IsSpare)
        .Select(zone => (zone.Name, Lacks: LacksFor(zone))).Where(zone => zone.Lacks is not null)
        .GroupBy(zone => zone.Lacks)
        .Select(group => $"wire drop of {Wording.Names([.. group.Select(zone => zone.Name)])} ({group.Key})");

    /// <summary>What is missing to judge a zone, or null.</summary>
    private static string? LacksFor(Zone zone)
    {
        if (zone.WireLength is null || zone.WireSection is null) return "no wire given";
        if (zone.Valve is null) return "no valve given";
        if (zone.Valve.WorksFrom is null) return "no works-from given";
        if (zone.Valve is LatchingValve) return PulseValve.On(zone.Controller, zone.Valve) is null ? "no coil, pulse or store given" : null;
        if (VoltsOf(zone.Controller) is null) return "no power given";
        return zone.Valve is NonLatchingValve { Inrush: null } ? "no inrush given" : null;
    }

    private static decimal? VoltsOf(Controller controller) => (controller.Power?.TransformerVoltage ?? controller.Power?.ContinuousVoltage)?.InBase;

    private static Finding? Judge(Zone zone)
    {
        if (LacksFor(zone) is not null) return null;
        var (length, section, needs) = (zone.WireLength!.Value, zone.WireSection!.Value, zone.Valve!.WorksFrom!.Value.InBase);
        return zone.Valve is NonLatchingValve valve
            ? Held(zone, length, section, needs, valve.Inrush!.Value.InBase)
            : Pulsed(zone, length, section, needs);
    }

    private static Finding? Held(Zone zone, Quantities.Quantity length, Quantities.Quantity section, decimal needs, decimal inrush)
    {
        var volts = VoltsOf(zone.Controller)!.Value;
        var drop = Electricity.WireDrop(inrush, length, section);
        if (volts - drop >= needs) return null;
        return FindingFor(zone, volts - drop, needs, $"{length} of {section} lose {Volts(drop)} V of {Volts(volts)} V at {Wording.Number(inrush, 2)} A, out and back.");
    }

    private static Finding? Pulsed(Zone zone, Quantities.Quantity length, Quantities.Quantity section, decimal needs)
    {
        var pulse = PulseValve.On(zone.Controller, zone.Valve!)!;
        var wire = 2 * Electricity.WireOhms(length, section);
        var left = pulse.VoltsThrough((double)wire);
        if (left >= (double)needs || pulse.IsTooWeakFromFull) return null;
        return FindingFor(zone, (decimal)left, needs, $"{length} of {section} add {Wording.Number(wire, 2)} ohm, out and back, to the {Wording.Number((decimal)pulse.Ohms, 1)} ohm of the coil.");
    }

    private static Finding FindingFor(Zone zone, decimal left, decimal needs, string details) =>
        Finding.At(Rule, zone.PlaceOf(Schema.Zone.Wire), $"too little voltage reaches the valve of {zone.DisplayName}", $"gets {Volts(left)} V as it opens") with
        {
            Others = [new Label(zone.Valve!.PlaceOf(zone.Valve is LatchingValve ? Schema.LatchingValve.WorksFrom : Schema.NonLatchingValve.WorksFrom), $"works from {Volts(needs)} V")],
            Details = details,
            WayOut = "Lay a thicker wire, or use a second conductor beside it.",
        };

    private static string Volts(decimal volts) => Wording.Number(volts, 3).TrimEnd('0').TrimEnd('.');
}
