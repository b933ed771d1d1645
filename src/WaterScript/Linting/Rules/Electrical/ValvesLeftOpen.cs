using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>A controller that cannot close all its latching valves one after the other when power comes back.</summary>
internal sealed class ValvesLeftOpen(LintContext context) : IRule
{
    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        controller box {
          outputs 3
          stagger STAGGER
          power { capacitor 4700 uF at 24 V; recharge 0.5 W efficiency 80 % }
        }
        valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage 7 V }
        zone a { output 1; valve click }
        zone b { output 2; valve click }
        zone c { output 3; valve click }
        schedule morning {
          every day
          start at 06:00
          steps { water a, b, c for 10 min }
        }
        """;

    public static Rule Rule { get; } = new("valves-left-open", Severity.Warning, "not all valves can be closed after a power cut")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        GoesWith = "capacitor-not-recharged",
        Finds = "After a power cut a latching valve is as it was. The controller has to close every one, at its `stagger`. Finds a controller whose " +
            "capacitor " +
            "is too weak for one of these pulses.",
        Matters = """
            The power fails in the night while the beds are watered. When it is back, the one valve that does not close empties the tank.
            """,
        Fires = Example.Replace("STAGGER", "100 ms", StringComparison.Ordinal),
        Fixed = Example.Replace("STAGGER", "3 s", StringComparison.Ordinal),
        FixSafety = "Writes a longer stagger, also into a controller that has none. Unsafe: valves that are due together open and close later.",
        KnownLimits = "The capacitor is taken to be full before the first pulse: a controller should wait for that when power comes back. The order is that " +
            "of " +
            "the outputs.",
        Sources = "E = C · U² / 2; U = U0 · exp(−t / (R · C)); recharge t = C · (U2² − U1²) / (2 · η · P).",
    };

    public IEnumerable<Finding> Findings() => WiredOutput.AllOf(context.Site)
        .Where(wired => wired.IsLatching)
        .GroupBy(wired => wired.Controller)
        .Select(group => Judge(group.Key, [.. group]))
        .OfType<Finding>();

    private static Finding? Judge(Controller controller, IReadOnlyList<WiredOutput> outputs)
    {
        if (Capacitor.Of(controller) is not { } capacitor) return null;
        var (at, energy, closed) = (0m, 0.0, 0);
        WiredOutput? failing = null;
        foreach (var output in outputs)
        {
            if (PulseValve.On(controller, output.Valve, output.Wire?.Value) is not { IsTooWeakFromFull: false } pulse) return null;
            var given = capacitor.Give(at, pulse);
            energy += Electricity.Energy(capacitor.Farads, given.Before) - Electricity.Energy(capacitor.Farads, given.After);
            if (given.IsTooWeak) failing ??= output;
            if (failing is null) closed++;
            at += (decimal)controller.Stagger.TotalMilliseconds / Switching.MillisecondsInSecond;
        }

        return failing is null ? null : FindingFor(controller, capacitor, outputs, failing, closed, energy);
    }

    private static Finding FindingFor(
        Controller controller, Capacitor capacitor, IReadOnlyList<WiredOutput> outputs, WiredOutput failing, int closed, double energy)
    {
        var pulse = PulseValve.On(controller, failing.Valve, failing.Wire?.Value)!;
        var stagger = controller.Stagger.TotalSeconds;
        var longer = LongerStagger.For(capacitor, pulse);
        var place = failing.Zone?.Origin ?? failing.Device!.Origin;
        return Finding.At(Rule, controller.Power!.Capacitor!.Value.Place,
            $"after a power cut {controller.Name} can close {closed} of its {outputs.Count} valves",
            $"closes {closed} of {outputs.Count}") with
        {
            Others = [new Label(controller.WrittenStagger?.Place ?? controller.Origin!.Value, "one after the other, this far apart"),
                new Label(place, "the first valve that stays open")],
            Details = $"{Phrases.Count(outputs.Count, "pulse")}, {Phrases.Number((decimal)stagger, 3)} s apart, take {Phrases.Number((decimal)energy, 3)} " +
                $"J; the full capacitor holds {Phrases.Number((decimal)Electricity.Energy(capacitor.Farads, capacitor.Full), 3)} J.",
            Assumed = pulse.Assumed,
            Excess = outputs.Count - closed,
            Help = longer is { } milliseconds
                ? $"Write `{LongerStagger.Words(milliseconds)}` in controller {controller.Name}: closing all then takes " +
                    $"{Phrases.Number((decimal)milliseconds / 1000 * (outputs.Count - 1), 1)} s."
                : "Write a `stagger` that the recharge fits into, and a `recharge` in the power block.",
            Fix = longer is { } spaced ? LongerStagger.To(controller, spaced) : null,
        };
    }
}
