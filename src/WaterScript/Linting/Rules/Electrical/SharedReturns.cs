using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>
/// The voltage that valves get as they open, where the current of others that are on goes back through the same conductor. Of two wires that share it,
/// it is shared along the shorter one.
/// </summary>
internal sealed class SharedReturns
{
    private readonly LintContext _context;
    private readonly CurrentDraw _draw;
    private readonly Dictionary<(int Zone, int Device, int Controller), WiredOutput> _outputs;
    private readonly Dictionary<(int Zone, int Device, int Controller), Low> _low = [];
    private readonly Instant[] _instants;
    private readonly HashSet<int> _controllers;

    public SharedReturns(LintContext context)
    {
        var site = context.Site;
        _context = context;
        _draw = new CurrentDraw(site, new PowerLimit?[site.Controllers.Length]);
        _outputs = WiredOutput.AllOf(site).Where(wired => wired.Wire is { Value.SharesReturn: true })
            .ToDictionary(wired => (wired.Zone?.Index ?? -1, wired.Device?.Index ?? -1, wired.Controller.Index));
        _instants = [.. site.Controllers.Select(_ => new Instant())];
        _controllers = [.. _outputs.Values.GroupBy(wired => wired.Controller.Index)
            .Where(sharing => sharing.Count() > 1 && sharing.Any(wired => WireVolts.Of(wired) is not null)).Select(sharing => sharing.Key)];
    }

    public bool Observes(Controller controller) => _controllers.Contains(controller.Index);

    public void Visit(in Switching switching)
    {
        var instant = _instants[switching.Controller];
        if (instant.Milliseconds != switching.Milliseconds) Judge(instant);
        instant.Milliseconds = switching.Milliseconds;
        if (!_outputs.TryGetValue((switching.Zone, switching.Device, switching.Controller), out var wired)) return;
        if (!switching.IsOpen) instant.On.RemoveAll(on => on.Wired == wired);
        else instant.On.Add(
            new On(wired, switching, _context.Origins.Of(switching.Opening), _draw.Inrush(switching), _draw.Holding(switching)) { IsOpening = true });
    }

    /// <summary>A finding for each valve that gets too little.</summary>
    public IEnumerable<Finding> Findings(Rule rule)
    {
        foreach (var instant in _instants) Judge(instant);
        return _low.Values.Select(low => FindingFor(rule, low));
    }

    /// <summary>Looks at what opens at one instant, after which it is held.</summary>
    private void Judge(Instant instant)
    {
        foreach (var on in instant.On.Where(on => on.IsOpening)) Judge(on, instant.On);
        for (var i = 0; i < instant.On.Count; i++) instant.On[i] = instant.On[i] with { IsOpening = false };
    }

    private void Judge(in On on, List<On> all)
    {
        if (on.Wired.IsLatching || WireVolts.Of(on.Wired) is not { } volts || !volts.Reaches(volts.Wire)) return;
        var (wired, least) = (on.Wired, on.Wired.MinimumVoltage!.Value.InBase);
        Share[] others = [.. all.Where(other => other.Wired != wired && other.Amperes > 0).Select(other => ShareOf(other, volts.Wire))];
        var left = volts.At(volts.Wire) - others.Sum(share => share.Volts);
        if (left >= least) return;
        var key = (on.Switching.Zone, on.Switching.Device, on.Switching.Controller);
        if (!_low.TryGetValue(key, out var low)) _low[key] = low = new Low(wired, volts);
        low.Counter.Add(on.Switching.Second, _context);
        if (!low.Counter.Reach(least - left)) return;
        (low.Left, low.Others, low.Origin) = (left, others, on.Origin);
    }

    private static Share ShareOf(in On other, Wire wire)
    {
        var along = other.Wired.Wire!.Value.Value.Length;
        var shared = along.InBase < wire.Length.InBase ? along : wire.Length;
        return new Share(other.Wired, other.Amperes, shared, other.Amperes * Electricity.SummerOhms(wire with { Length = shared }));
    }

    private Finding FindingFor(Rule rule, Low low)
    {
        var (wired, least) = (low.Wired, low.Wired.MinimumVoltage!.Value);
        var lost = low.Others.Sum(share => share.Volts);
        var finding = Finding.At(rule, wired.Wire!.Value.Place,
            $"{VoltageDrop.Heading(wired)} gets {VoltageDrop.Under(low.Left, least.InBase)} V, needs {least}", $"others take {VoltageDrop.Volts(lost)} V") with
        {
            Others = [new Label(least.Place, $"needs {least}"), .. _context.Steps.Of(low.Origin).Labels("opens it while others are on")],
        };
        finding = _context.Happening(finding, low.Counter);
        var terms = low.Others.Take(3).Select(share =>
            $"{share.Wired.Name} {Phrases.Number(share.Amperes, 2)} A through {share.Along} of it {VoltageDrop.Volts(share.Volts)} V");
        return finding with
        {
            Details = $"{finding.Details}{low.Volts.Sum}\nOthers on the same return: {string.Join(", ", terms)}" +
                $"{(low.Others.Length > 3 ? $", {low.Others.Length - 3} more" : "")}; {VoltageDrop.Volts(low.Left)} V are left.",
            Help = "Lay a thicker return, or a second one, or water fewer of them together.",
        };
    }

    /// <summary>What another that is on takes.</summary>
    private readonly record struct Share(WiredOutput Wired, decimal Amperes, Quantity Along, decimal Volts);

    /// <summary>An output that is on.</summary>
    private readonly record struct On(WiredOutput Wired, Switching Switching, StepOrigin Origin, decimal Inrush, decimal Holding)
    {
        public bool IsOpening { get; init; }

        public decimal Amperes => IsOpening ? Inrush : Holding;
    }

    /// <summary>What is on at a controller, of the outputs that share a return.</summary>
    private sealed class Instant
    {
        public List<On> On { get; } = [];

        public long Milliseconds { get; set; } = long.MinValue;
    }

    /// <summary>A valve that gets too little; the worst is how much is missing.</summary>
    private sealed class Low(WiredOutput wired, WireVolts volts)
    {
        public WiredOutput Wired { get; } = wired;

        public WireVolts Volts { get; } = volts;

        public OccurrenceCounter Counter { get; } = new();

        public decimal Left { get; set; }

        public Share[] Others { get; set; } = [];

        public StepOrigin Origin { get; set; }
    }
}
