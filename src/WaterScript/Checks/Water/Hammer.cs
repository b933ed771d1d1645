using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Valves that stop much of a supply's flow at one instant.</summary>
internal sealed class Hammer : ISeesSwitchings
{
    /// <summary>Under this flow, in L/min, a column of water in garden pipes does little harm (common practice).</summary>
    private const decimal Harmless = 20;

    /// <summary>The spacing that is tried, in milliseconds: a pressure wave has come back by then from half a kilometre of pipe.</summary>
    private const long TriedSpacing = 1_000;

    /// <summary>By how many seconds later a start is tried.</summary>
    private static readonly long[] TriedShifts = [60, 120, 300];

    public static Rule Rule { get; } = new("hammer", Severity.Advice, "much flow stopped at one instant")
    {
        CanBeAccepted = true,
        Finds = """
            Two or more valves of a supply, or of those that it feeds with no tank between, close at one instant, and together they stop more than half of what the supply gives, and more than 20 L/min.
            The instant is that at which the controllers switch; each is one time.
            """,
        Matters = """
            A long column of water that is stopped at once strikes: the pressure rises by the density of water, times the speed of sound in it, times its speed. Pipes bang, joints loosen, and solenoids lift.
            """,
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
        Mended = """
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
        FixSafety = """
            Writes commas in place of the pluses of a step; for two schedules a start some minutes later, and for latching valves a `spacing`, where a trial against this rule shows that it helps. Unsafe: the watering takes longer
            or comes later. What else it meets is not weighed.
            """,
        KnownLimits = """
            How fast a valve closes and how long the pipe is, is not known. What closes while a pump or a master of it is off stops no flow, and is not told.
            """,
        Sources = "Joukowsky: Δp = ρ · a · ΔV when closing takes less than 2 L / a. The thresholds are common practice.",
    };

    private readonly Survey _survey;
    private readonly Causes _causes;
    private readonly int[][] _suppliesOfZone;
    private readonly int[][] _devicesOfZone;
    private readonly bool[] _controllers;
    private readonly List<Part>[] _closing;
    private readonly List<(int Device, bool IsOpen)> _switched = [];
    private readonly bool[] _isOn;
    private long _milliseconds = long.MinValue;

    public Hammer(Survey survey)
    {
        _survey = survey;
        _causes = new Causes(survey);
        var site = survey.Site;
        _closing = [.. site.Supplies.Select(_ => new List<Part>())];
        _suppliesOfZone = [.. site.Zones.Select(SuppliesOf)];
        _devicesOfZone = [.. site.Zones.Select(zone => site.Devices.Where(device => device.Output > 0 && device.RunsBecauseOf(zone)).Select(device => device.Index).ToArray())];
        _isOn = new bool[site.Devices.Length];
        _controllers = new bool[site.Controllers.Length];
        foreach (var zone in site.Zones.Where(zone => _suppliesOfZone[zone.Index].Length > 0))
        {
            _controllers[zone.Controller.Index] = true;
            foreach (var device in _devicesOfZone[zone.Index]) _controllers[site.Devices[device].Controller.Index] = true;
        }
    }

    public bool Wants(Controller controller) => _controllers[controller.Index];

    public void See(in Switching switching)
    {
        if (switching.Milliseconds != _milliseconds) Judge();
        _milliseconds = switching.Milliseconds;
        if (switching.Zone < 0) _switched.Add((switching.Device, switching.IsOpen));
        else if (!switching.IsOpen) Close(switching);
    }

    public IEnumerable<Finding> Findings()
    {
        Judge();
        return _causes.All.Select(FindingFor);
    }

    private static int[] SuppliesOf(Zone zone) =>
        zone.LitresPerMinute is null ? [] : [.. Demand.Above(zone.Supply).Where(supply => supply.Flow is not null).Select(supply => supply.Index)];

    private void Close(in Switching switching)
    {
        foreach (var supply in _suppliesOfZone[switching.Zone])
            _closing[supply].Add(new Part(_survey.Askers.Of(switching.Opening), switching.Zone, Device: -1, _survey.Site.Zones[switching.Zone].LitresPerMinute!.Value));
    }

    /// <summary>What devices do at the instant at which valves close comes too late for these.</summary>
    private void Judge()
    {
        for (var supply = 0; supply < _closing.Length; supply++)
        {
            var closing = _closing[supply];
            if (closing.Count == 0) continue;
            if (closing.Count > 1) Judge(supply, closing);
            closing.Clear();
        }

        foreach (var (device, isOpen) in _switched) _isOn[device] = isOpen;
        _switched.Clear();
    }

    private void Judge(int supply, List<Part> closing)
    {
        closing.RemoveAll(part => !Array.TrueForAll(_devicesOfZone[part.Zone], device => _isOn[device]));
        if (closing.Count < 2) return;
        var limit = Math.Max(Harmless, _survey.Site.Supplies[supply].Flow!.Value.InBase / 2) + Flows.Tolerance;
        var second = _milliseconds / Switching.MillisecondsInSecond;
        if (closing.Sum(part => part.Amount) > limit) _causes.Add(supply, limit, closing, second, second);
    }

    private Finding FindingFor(Cause cause)
    {
        var supply = _survey.Site.Supplies[cause.Owner];
        var flow = supply.Flow!.Value;
        var finding = CauseWords.FindingFor(
            Rule, _survey, cause, $"much of the flow from {supply.DisplayName} stops at one instant", $"{CauseWords.UpTo(cause, Flows.Say(cause.Worst, flow))} stop at once", new Label(supply.PlaceOf(Schema.Supply.Flow), $"gives {Flows.Say(flow.InBase, flow)}"));
        return WithWayOut(finding with { Details = $"{finding.Details}{CauseWords.WorstParts(_survey, cause, amount => Flows.Say(amount, flow))}." }, cause);
    }

    /// <summary>A spacing or a later start, where a trial shows that it is one; for a single step, commas.</summary>
    private Finding WithWayOut(Finding finding, Cause cause)
    {
        if (Spaced(cause) is { } controller)
            return finding with { WayOut = $"Write {LongerSpacing.Words(TriedSpacing)} in {controller.Name}: its valves then close one by one, which clears it.", Fix = LongerSpacing.To(controller, TriedSpacing) };
        if (cause.Places is [var only])
            return finding with { WayOut = "Let one of them run a few seconds longer than the other, or water them one after the other: write a comma in place of a plus.", Fix = CauseWords.OneByOne(only.Step) };
        if (StartTrial.Best(_survey, finding, cause, _causes.All.Sum(other => other.Times), trial => new Hammer(trial), TriedShifts) is not var (start, left))
            return finding with { WayOut = "Let one of them run a few seconds longer than the other." };
        return finding with { WayOut = $"Start \"{start.Schedule.Name}\" at {start.Time}, which {CauseWords.Cleared(cause, left)}.", Fix = start.Fix };
    }

    /// <summary>The controller on which a spacing keeps these valves from closing at one instant; null where none does. Only latching valves wait for their turn to close.</summary>
    private Controller? Spaced(Cause cause)
    {
        var zones = cause.Parts.Select(part => _survey.Site.Zones[part.Zone]).ToArray();
        if (zones.All(zone => zone.Valve is not LatchingValve) || zones.DistinctBy(zone => zone.Controller.Index).Count() > 1) return null;
        var controller = zones[0].Controller;
        if (controller.Spacing > NodaTime.Duration.Zero || controller.Origin is null) return null;
        return Trial.Of(_survey, LongerSpacing.In(_survey.Site, controller, TriedSpacing), trial => new Hammer(trial))?._causes.All.All(left => left.Owner != cause.Owner) is true ? controller : null;
    }
}
