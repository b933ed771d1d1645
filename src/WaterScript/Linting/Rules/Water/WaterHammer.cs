using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>Valves that stop much of a supply's flow at one instant.</summary>
internal sealed class WaterHammer : IRule, ISwitchingObserver
{
    /// <summary>Under this flow, in L/min, a column of water in garden pipes does little harm (common practice).</summary>
    private const decimal Harmless = 20;

    /// <summary>The stagger that is tried, in milliseconds: a pressure wave has come back by then from half a kilometre of pipe.</summary>
    private const long TriedSpacing = 1_000;

    /// <summary>By how many seconds later a start is tried.</summary>
    private static readonly long[] TriedShifts = [60, 120, 300];

    public static Rule Rule { get; } = new("water-hammer", Severity.Advice, "much flow stopped at one instant")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        GoesWith = "flow-over-supply",
        Finds = "Two or more valves of a supply, or of those that it feeds with no tank between, close at one instant, and together they stop more than " +
            "half of what the supply gives, and more than 20 L/min.\n" +
            "The instant is that at which the controllers switch; each counts once.",
        Matters = "A long column of water that is stopped at once strikes: the pressure rises by the density of water, times the speed of sound in it, " +
            "times its speed. Pipes bang, joints loosen, and solenoids lift.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply main { flow 60 L/min }
            controller box { outputs 4 }
            zone a { output 1; flow 25 L/min }
            zone b { output 2; flow 25 L/min }
            schedule morning {
              on mon
              start at 06:00
              steps { water a + b for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply main { flow 60 L/min }
            controller box { outputs 4 }
            zone a { output 1; flow 25 L/min }
            zone b { output 2; flow 25 L/min }
            schedule morning {
              on mon
              start at 06:00
              steps { water a, b for 10 min }
            }
            """,
        FixSafety = "Writes commas in place of the pluses of a step; for two schedules a start some minutes later, and for latching valves a `stagger`, " +
            "where a trial against this rule shows that it helps. Unsafe: the watering takes longer\n" +
            "or comes later. It is tried against all rules before it is proposed.",
        KnownLimits = """
            How fast a valve closes and how long the pipe is, is not known.
            What closes while a pump or a master of it is off stops no flow, and is not reported.
            """,
        Sources = "Joukowsky: Δp = ρ · a · ΔV when closing takes less than 2 L / a. The thresholds are common practice.",
    };

    private readonly LintContext _context;
    private readonly Overloads _overloads;
    private readonly int[][] _suppliesOfZone;
    private readonly int[][] _devicesOfZone;
    private readonly bool[] _controllers;
    private readonly decimal[] _flows;
    private readonly List<Contribution>[] _closing;

    /// <summary>Indexes of the supplies from which something closes now.</summary>
    private readonly List<int> _affected = [];
    private readonly List<(int Device, bool IsOpen)> _switched = [];
    private readonly int[] _outputsOn;
    private long _milliseconds = long.MinValue;

    public WaterHammer(LintContext context)
    {
        _context = context;
        _overloads = new Overloads(context);
        var site = context.Site;
        _closing = [.. site.Supplies.Select(_ => new List<Contribution>())];
        _flows = [.. site.Zones.Select(zone => zone.LitresPerMinute ?? 0)];
        _suppliesOfZone = ByZone.Of(site, zone => (zone.Supply, zone.LitresPerMinute is null), SuppliesOf);
        _devicesOfZone = [.. site.Zones.Select(
            zone => site.Devices.Where(device => device.Output > 0 && device.RunsBecauseOf(zone)).Select(device => device.Index).ToArray())];
        _outputsOn = new int[site.Devices.Length];
        _controllers = new bool[site.Controllers.Length];
        foreach (var zone in site.Zones.Where(zone => !zone.IsHandWatered && _suppliesOfZone[zone.Index].Length > 0))
        {
            _controllers[zone.Controller!.Index] = true;
            foreach (var wired in _devicesOfZone[zone.Index].SelectMany(device => site.Devices[device].ByOutput())) _controllers[wired.Controller.Index] = true;
        }
    }

    public bool Observes(Controller controller) => _controllers[controller.Index];

    public void Visit(in Switching switching)
    {
        if (switching.Milliseconds != _milliseconds) Judge();
        _milliseconds = switching.Milliseconds;
        if (switching.Zone < 0) _switched.Add((switching.Device, switching.IsOpen));
        else if (!switching.IsOpen) Close(switching);
    }

    public IEnumerable<Finding> Findings()
    {
        Judge();
        return _overloads.All.Select(FindingFor);
    }

    private static int[] SuppliesOf(Zone zone) =>
        zone.LitresPerMinute is null ? [] : [.. Demand.Above(zone.Supply).Where(supply => supply.Flow is not null).Select(supply => supply.Index)];

    private void Close(in Switching switching)
    {
        foreach (var supply in _suppliesOfZone[switching.Zone])
        {
            var closing = _closing[supply];
            if (closing.Count == 0) _affected.Add(supply);
            closing.Add(new Contribution(_context.Origins.Of(switching.Opening), switching.Zone, Device: -1, _flows[switching.Zone]));
        }
    }

    /// <summary>What devices do at the instant at which valves close comes too late for these.</summary>
    private void Judge()
    {
        _affected.Sort();
        foreach (var supply in _affected)
        {
            var closing = _closing[supply];
            if (closing.Count > 1) Judge(supply, closing);
            closing.Clear();
        }

        _affected.Clear();
        foreach (var (device, isOpen) in _switched) _outputsOn[device] += isOpen ? 1 : -1;
        _switched.Clear();
    }

    private void Judge(int supply, List<Contribution> closing)
    {
        closing.RemoveAll(contribution => !Array.TrueForAll(_devicesOfZone[contribution.Zone], device => _outputsOn[device] > 0));
        if (closing.Count < 2) return;
        var limit = Math.Max(Harmless, _context.Site.Supplies[supply].Flow!.Value.InBase / 2) + Flows.Tolerance;
        var second = _milliseconds / Switching.MillisecondsInSecond;
        if (closing.Sum(contribution => contribution.Amount) > limit) _overloads.Add(supply, limit, closing, second, second);
    }

    private Finding FindingFor(Overload overload)
    {
        var supply = _context.Site.Supplies[overload.Owner];
        var flow = supply.Flow!.Value;
        var finding = OverloadWords.FindingFor(
            Rule, _context, overload, $"{OverloadWords.Closing(_context, overload)} at once, {Flows.Say(overload.Worst, flow)}",
                $"stops {OverloadWords.UpTo(overload, Flows.Say(overload.Worst, flow))}",
                new Label(flow.Place, $"gives {Flows.Say(flow.InBase, flow)}"));
        return WithHelp(finding
            with
        { Details = $"{finding.Details}{OverloadWords.WorstSum(_context, overload, amount => Flows.Say(amount, flow))}." }, overload);
    }

    /// <summary>A stagger or a later start, where a trial shows that it is one; for a single step, commas.</summary>
    private Finding WithHelp(Finding finding, Overload overload)
    {
        if (Spaced(overload) is { } controller)
            return finding with
            {
                Help = $"Write `{LongerStagger.Words(TriedSpacing)}` in controller {controller.Name}: its valves then close one by one, which clears it.",
                Fix = LongerStagger.To(controller, TriedSpacing)
            };
        if (overload.Places is [var only])
            return finding with
            {
                Help =
                "Water them one after the other, or let one of them run a few seconds longer than the other.",
                Fix = OverloadWords.OneByOne(only.Step)
            };
        if (StartTrial.Best(_context, finding, overload, _overloads.All.Sum(other => other.Times), trial => new WaterHammer(trial), TriedShifts) is not var (
            start, left))
            return finding with { Help = "Let one of them run a few seconds longer than the other." };
        return finding with { Help = $"Start {start.Schedule.Name} at {start.Time}, which {OverloadWords.Cleared(overload, left)}.", Fix = start.Fix };
    }

    /// <summary>
    /// The controller on which a stagger keeps these valves from closing at one instant; null where none does. Only latching valves wait for their
    /// turn to close.
    /// </summary>
    private Controller? Spaced(Overload overload)
    {
        var zones = overload.Contributions.Select(contribution => _context.Site.Zones[contribution.Zone]).ToArray();
        if (zones.All(zone => zone.Valve is not LatchingValve) || zones.DistinctBy(zone => zone.Controller?.Index).Count() > 1) return null;
        var controller = zones[0].Controller!;
        if (controller.Stagger > NodaTime.Duration.Zero || controller.Origin is null) return null;
        return Trial.Of(_context, LongerStagger.In(_context.Site, controller, TriedSpacing),
            trial => new WaterHammer(trial))?._overloads.All.All(left => left.Owner != overload.Owner) is true ? controller : null;
    }
}
