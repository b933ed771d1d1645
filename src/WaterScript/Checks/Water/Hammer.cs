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
            Two or more valves of a supply close at one instant, and together they stop more than half of what the supply gives, and more than 20 L/min.
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
            How fast a valve closes and how long the pipe is, is not known. Where a pump or a master stops before its zones close, nothing flows any more, and nothing is told.
            """,
        Sources = "Joukowsky: Δp = ρ · a · ΔV when closing takes less than 2 L / a. The thresholds are common practice.",
    };

    private readonly Survey _survey;
    private readonly Causes _causes;
    private readonly decimal?[] _flows;
    private readonly int[] _supplyOfZone;
    private readonly bool[] _controllers;
    private readonly List<Part>[] _closing;
    private readonly List<int> _supplies = [];
    private long _milliseconds = long.MinValue;

    public Hammer(Survey survey)
    {
        _survey = survey;
        _causes = new Causes(survey);
        _closing = [.. survey.Site.Supplies.Select(_ => new List<Part>())];
        _supplyOfZone = [.. survey.Site.Zones.Select(zone => zone.Supply?.Index ?? -1)];
        _flows = [.. survey.Site.Zones.Select(zone => zone.Supply?.Flow is null ? null : zone.LitresPerMinute)];
        foreach (var device in survey.Site.Devices.Where(device => device.Kind != DeviceKind.Injector && device.StopsAfter < NodaTime.Duration.Zero))
        {
            foreach (var zone in device.Zones) _flows[zone.Index] = null;
        }

        _controllers = new bool[survey.Site.Controllers.Length];
        foreach (var zone in survey.Site.Zones) _controllers[zone.Controller.Index] |= _flows[zone.Index] is not null;
    }

    public bool Wants(Controller controller) => _controllers[controller.Index];

    public void See(in Switching switching)
    {
        if (switching.Milliseconds != _milliseconds) Judge();
        _milliseconds = switching.Milliseconds;
        if (switching.IsOpen || switching.Zone < 0 || _flows[switching.Zone] is not { } flow) return;
        var supply = _supplyOfZone[switching.Zone];
        if (_closing[supply].Count == 0) _supplies.Add(supply);
        _closing[supply].Add(new Part(_survey.Askers.Of(switching.Opening), switching.Zone, Device: -1, flow));
    }

    public IEnumerable<Finding> Findings()
    {
        Judge();
        return _causes.All.Select(FindingFor);
    }

    private void Judge()
    {
        for (var supply = 0; supply < _closing.Length; supply++)
        {
            var closing = _closing[supply];
            if (closing.Count == 0) continue;
            if (closing.Count > 1) Judge(supply, closing);
            closing.Clear();
        }
    }

    private void Judge(int supply, List<Part> closing)
    {
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
        var cleared = left == 0 ? "clears it" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"clears {cause.Times - left} of the {cause.Times}");
        return finding with { WayOut = $"Start \"{start.Schedule.Name}\" at {start.Time}, which {cleared}.", Fix = start.Fix };
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
