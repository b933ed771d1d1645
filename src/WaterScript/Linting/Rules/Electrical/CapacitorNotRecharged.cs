using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>A pulse that comes before the capacitor has recovered from those before it.</summary>
internal sealed class CapacitorNotRecharged : IRule, ISwitchingObserver
{
    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        controller box {
          outputs 2
          stagger STAGGER
          power { capacitor 2700 uF at 24 V; recharge 0.5 W efficiency 80 % }
        }
        valve click latching { pulse 50 ms; coil 20 ohm; minimum-voltage 7 V }
        zone a { output 1; valve click }
        zone b { output 2; valve click }
        schedule morning {
          every day
          start at 06:00
          steps { water a, b for 10 min }
        }
        """;

    public static Rule Rule { get; } = new("capacitor-not-recharged", Severity.Error, "a pulse before the capacitor has recovered")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "Follows the capacitor of a controller from pulse to pulse: each opening and each closing of a latching valve is one, at the controller's " +
            "`stagger`, or one right after the other where none is given or where it is\n" +
            "shorter than a pulse. Finds a pulse at which the coil gets too little voltage when the plunger moves, although a full capacitor would do. Where " +
            "a `wire` is given, the capacitor\n" +
            "discharges through it too, and the coil gets what is left of the voltage behind it. Each such pulse is one time.",
        Matters = "When one valve closes and the next opens, the second pulse is the weak one: the valve does not open, or worse, does not close, and the " +
            "controller does not know.",
        Fires = Example.Replace("STAGGER", "500 ms", StringComparison.Ordinal),
        Fixed = Example.Replace("STAGGER", "1500 ms", StringComparison.Ordinal),
        FixSafety = "Writes a longer stagger, also into a controller that has none. Unsafe: valves that are due together open and close later.",
        KnownLimits = "While a pulse lasts, nothing is taken to recharge the capacitor. Without `response-time` the plunger is taken to move at the end of " +
            "the " +
            "pulse, which is the worst. Without a `recharge` the capacitor is taken to be full a second after\n" +
            "a pulse. A wire that is too long even for a full capacitor is left to `voltage-drop`. Wires are taken at 40 °C, and resistances of coils as " +
            "written.",
        Sources = "U = U0 · exp(−t / (R · C)) · coil / R, where R is coil and wire, out and back; recharge t = C · (U2² − U1²) / (2 · η · P).",
    };

    private readonly LintContext _context;
    private readonly Capacitor?[] _capacitors;
    private readonly PulseValve?[] _zones;
    private readonly ByOutput<PulseValve?> _devices;
    private readonly List<(Switching Switching, PulseGiven Given)>[] _trains;
    private readonly Dictionary<(int Controller, LatchingValve Valve), Weak> _weak = [];

    public CapacitorNotRecharged(LintContext context)
    {
        _context = context;
        _capacitors = [.. context.Site.Controllers.Select(Capacitor.Of)];
        _trains = [.. context.Site.Controllers.Select(_ => new List<(Switching, PulseGiven)>())];
        _zones = [.. context.Site.Zones.Select(zone => PulseValve.Of(zone))];
        _devices = new ByOutput<PulseValve?>(context.Site, device => PulseValve.Drawing(device.Controller, device.Valve, device.Wire?.Value));
    }

    public bool Observes(Controller controller) => _capacitors[controller.Index] is not null;

    public void Visit(in Switching switching)
    {
        if ((switching.Zone >= 0 ? _zones[switching.Zone] : _devices[switching.Device, switching.Controller]) is not { } pulse) return;
        var given = _capacitors[switching.Controller]!.Give(switching.Seconds, pulse);
        var train = _trains[switching.Controller];
        if (given.IsFromFull) train.Clear();
        train.Add((switching, given));
        if (!given.IsTooWeak || pulse.IsTooWeakFromFull) return;
        var key = (switching.Controller, pulse.Valve);
        if (!_weak.TryGetValue(key, out var weak)) _weak[key] = weak = new Weak(switching, pulse);
        weak.Add(switching, given, train, _context);
    }

    public IEnumerable<Finding> Findings() => _weak.Values.Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => PulseValves.Of(_context.Site).Select(entry => entry.Controller).Distinct()
        .Where(controller => controller.Power!.Recharge is null)
        .Select(controller => new Gap(Concern.Power, "recharge", [Thing.Of(controller)], "recharge"));

    private Finding FindingFor(Weak weak)
    {
        var controller = _context.Site.Controllers[weak.First.Controller];
        var capacitor = _capacitors[controller.Index]!;
        var labels = _context.Steps.Of(weak.Origin).Labels("switches too soon after another");
        var finding = Finding.At(Rule, controller.Power!.Capacitor!.Value.Place, Heading(controller, capacitor, weak),
            $"falls to {Volts(weak.Given.AtMove)} V as {_context.NameOf(weak.First)} {Verb(weak.First)}") with
        {
            Others = [new Label(weak.Pulse.Valve.MinimumVoltage!.Value.Place, $"needs {Volts(weak.Pulse.MinimumVoltage)} V"), .. WireOf(weak), .. labels],
        };
        finding = _context.Happening(finding, weak.OccurrenceCounter);
        return WithHelp(finding, controller, capacitor, weak.Pulse) with
        {
            Details = $"{finding.Details}{Train(weak)}{Wire(weak)}{Recharge(capacitor, weak)}",
            Assumed = weak.Pulse.Assumed,
            Excess = (decimal)(weak.Pulse.MinimumVoltage - weak.Given.AtMove),
        };
    }

    private Finding WithHelp(Finding finding, Controller controller, Capacitor capacitor, PulseValve pulse)
    {
        if (LongerStagger.For(capacitor, pulse) is not { } least)
            return finding with { Help = "Write a `stagger` that the recharge fits into, and a `recharge` in the power block." };
        return Clearing(controller, pulse, least) is { } stagger
            ? finding with
            {
                Help = $"Write `{LongerStagger.Words(stagger)}` in controller {controller.Name}, or use a larger capacitor.",
                Fix = LongerStagger.To(controller, stagger)
            }
            : finding with { Help = "Leave more time between two switchings, or use a larger capacitor." };
    }

    /// <summary>
    /// A stagger, in milliseconds, with which no pulse to such a valve is too weak: the least that its own pulses need, or more where others draw on
    /// the capacitor too. Null where none helps.
    /// </summary>
    private long? Clearing(Controller controller, PulseValve pulse, long least)
    {
        foreach (var stagger in new[] { least, 2 * least, 4 * least }.Where(stagger => stagger > controller.Stagger.TotalMilliseconds))
        {
            var longer = LongerStagger.In(_context.Site, controller, stagger);
            if (Trial.Of(_context, longer, trial => new CapacitorNotRecharged(trial)) is not { } tried) return least;
            if (!tried._weak.ContainsKey((controller.Index, pulse.Valve))) return stagger;
        }

        return null;
    }

    /// <summary>The two times that clash, or what there is to recharge where nothing does.</summary>
    private static string Heading(Controller controller, Capacitor capacitor, Weak weak) => RechargeTime(capacitor, weak) is { } needed
        ? $"controller {controller.Name} recharges for {Milliseconds(weak.Given.Idle)} ms, needs {Milliseconds(needed)}"
        : $"controller {controller.Name} does not recharge between two pulses";

    private string Train(Weak weak)
    {
        var pulses = weak.Train.Select(entry =>
            $"{_context.NameOf(entry.Switching)} {Verb(entry.Switching)}: {Volts(entry.Given.Before)} to {Volts(entry.Given.After)} V");
        return $"{Phrases.Names([.. pulses])}.";
    }

    /// <summary>What stands at the wire to the valve that gets too little.</summary>
    private IEnumerable<Label> WireOf(Weak weak)
    {
        var place = weak.First.Zone >= 0 ? _context.Site.Zones[weak.First.Zone].Wire?.Place : _context.Site.Devices[weak.First.Device].Wire?.Place;
        if (place is { } wire) yield return new Label(wire, $"takes {Volts(VoltsBefore(weak) - weak.Given.AtMove)} V of {Volts(VoltsBefore(weak))} V");
    }

    /// <summary>How the wire takes its part of the last pulse.</summary>
    private static string Wire(Weak weak)
    {
        if (weak.Pulse.Wire is not { } wire) return "";
        var coil = Phrases.Number((decimal)weak.Pulse.Ohms, 1);
        return $"\nWire: {WireVolts.Laid(wire)} = {Phrases.Number((decimal)weak.Pulse.WireOhms, 2)} ohm, coil {coil} ohm: " +
            $"{Volts(VoltsBefore(weak))} · {coil} / {Phrases.Number((decimal)weak.Pulse.LoopOhms, 2)} = {Volts(weak.Given.AtMove)} V.";
    }

    /// <summary>Volts of the capacitor when the plunger of the weak valve moves.</summary>
    private static double VoltsBefore(Weak weak) => weak.Given.AtMove * weak.Pulse.LoopOhms / weak.Pulse.Ohms;

    private static string Recharge(Capacitor capacitor, Weak weak) => RechargeTime(capacitor, weak) is { } needed
        ? $"\nThat pulse needs {Volts(weak.Pulse.Needs)} V: {Milliseconds(needed)} ms of recharging from {Volts(weak.Given.Left)} V at " +
            $"{Phrases.Number((decimal)capacitor.Watts!.Value, 2)} W; it gets {Milliseconds(weak.Given.Idle)} ms."
        : "";

    /// <summary>Seconds that it takes to be ready for the pulse; null where nothing recharges it.</summary>
    private static double? RechargeTime(Capacitor capacitor, Weak weak) => capacitor.Watts is { } watts
        ? Electricity.RechargeSeconds(capacitor.Farads, weak.Given.Left, Math.Min(capacitor.Full, weak.Pulse.Needs), watts)
        : null;

    private static string Verb(Switching switching) => switching.IsOpen ? "opens" : "closes";

    /// <summary>Rounded so that a time that is too short never looks long enough.</summary>
    private static string Milliseconds(double seconds) => Phrases.Number((decimal)seconds * 1000, 0);

    private static string Volts(double volts) => Phrases.Number((decimal)volts, 2);

    /// <summary>A kind of valve on a controller that gets too weak pulses.</summary>
    private sealed class Weak(Switching first, PulseValve pulse)
    {
        public Switching First { get; } = first;

        public PulseValve Pulse { get; } = pulse;

        public OccurrenceCounter OccurrenceCounter { get; } = new();

        public StepOrigin Origin { get; private set; }

        public PulseGiven Given { get; private set; }

        /// <summary>The pulses since the capacitor was full last, up to the first weak one.</summary>
        public IReadOnlyList<(Switching Switching, PulseGiven Given)> Train { get; private set; } = [];

        public void Add(in Switching switching, in PulseGiven given, List<(Switching Switching, PulseGiven Given)> train, LintContext context)
        {
            if (OccurrenceCounter.Add(switching.Second, context))
                (Origin, Given, Train) = (context.Origins.Of(switching.Opening), given, [.. train.TakeLast(4)]);
        }
    }
}
