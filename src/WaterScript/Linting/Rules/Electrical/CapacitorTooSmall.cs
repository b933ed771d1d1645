using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>A capacitor that does not move a latching valve even when it is full.</summary>
internal sealed class CapacitorTooSmall(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("capacitor-too-small", Severity.Error, "the capacitor is too small for one pulse")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "The full capacitor of a controller discharges through the coil of a latching valve. When the plunger moves, its voltage is under what the " +
            "valve works from.",
        Matters = """
            A latching valve that gets too weak a pulse stays as it was: open, perhaps, all night.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 2
              stagger 5 s
              power { capacitor 1800 uF at 24 V; recharge 0.5 W efficiency 80 % }
            }
            valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage 12 V }
            zone beds { output 1; valve click }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 2
              stagger 5 s
              power { capacitor 4700 uF at 24 V; recharge 0.5 W efficiency 80 % }
            }
            valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage 12 V }
            zone beds { output 1; valve click }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        KnownLimits = "A capacitor may hold a fifth less than is printed on it, and less with age. Nothing is added for that.",
        Sources = "U = U0 · exp(−t / (R · C)); least capacitance C ≥ t / (R · ln(U0 / Umin)).",
    };

    public IEnumerable<Finding> Findings() => PulseValves.Of(context.Site)
        .Where(entry => entry.Valve.IsTooWeakFromFull)
        .Select(entry => FindingFor(entry.Controller, entry.Valve));

    public IEnumerable<Gap> NotChecked() =>
        Gap.Each(Concern.Power, "pulses", PulseValves.NotKnown(context.Site).Select(entry => (Thing.Of(entry.Valve), (string?)entry.Lacks)));

    private static Finding FindingFor(Controller controller, PulseValve pulse)
    {
        var left = Electricity.AfterPulse(pulse.Full, pulse.Farads, pulse.Ohms, pulse.ResponseTime);
        var least = pulse.MinimumVoltage < pulse.Full
            ? Electricity.LeastFarads(pulse.Full, pulse.MinimumVoltage, pulse.Ohms, pulse.ResponseTime) * 1e6
            : double.PositiveInfinity;
        return Finding.At(Rule, controller.Power!.Capacitor!.Value.Place,
            $"a pulse leaves {Volts(left)} V in {controller.Name}, its valve needs {Volts(pulse.MinimumVoltage)}",
            $"falls from {Volts(pulse.Full)} to {Volts(left)} V") with
        {
            Others = [new Label(pulse.Valve.MinimumVoltage!.Value.Place, $"needs {Volts(pulse.MinimumVoltage)} V")],
            Details = $"A pulse: {controller.Power!.Capacitor} through {pulse.Valve.Coil} for {Phrases.Number((decimal)pulse.ResponseTime * 1000, 0)} ms.",
            Assumed = pulse.Assumed,
            Excess = (decimal)(pulse.MinimumVoltage - left),
            Help = double.IsFinite(least)
                ? $"Use a capacitor of {Phrases.Number((decimal)Math.Ceiling(least), 0)} uF or more."
                : "Use a capacitor of a higher voltage.",
        };
    }

    private static string Volts(double volts) => Phrases.Number((decimal)volts, 2);
}
