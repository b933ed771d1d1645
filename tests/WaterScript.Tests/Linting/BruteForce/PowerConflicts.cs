using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Tests.Simulation;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>Conflicts of outputs and currents, found at every second and at every switching.</summary>
internal static class PowerConflicts
{
    /// <summary>An output that waits for its turn is not open yet.</summary>
    public static IEnumerable<Conflict> TooManyZones(Evidence evidence) =>
        from controller in evidence.Site.Controllers
        where controller.AtMostZones is not null
        from conflict in Stretches(evidence, controller, open =>
            open.Count(opening => evidence.Openings[opening - 1].Zone >= 0) > controller.AtMostZones, least: 1)
        select conflict;

    /// <summary>What lasts less than a second is left to the inrush.</summary>
    public static IEnumerable<Conflict> HoldingCurrent(Evidence evidence) =>
        from controller in evidence.Site.Controllers
        where IsPowered(controller)
        from conflict in Stretches(evidence, controller, open => open.Sum(opening => Holding(evidence, opening)) > Carries(controller.Power!), least: 1000)
        select conflict;

    /// <summary>What begins again in the second in which it stopped has not stopped.</summary>
    private static IEnumerable<Conflict> Stretches(Evidence evidence, Controller controller, Func<List<int>, bool> isOver, int least)
    {
        long? since = null;
        var stopped = long.MinValue;
        foreach (var (at, on, _) in Moments(evidence, controller))
        {
            if (isOver(on)) since ??= at;
            else if (since is { } from)
            {
                since = null;
                if (at - from < least) continue;
                if (Second(from) != Second(stopped)) yield return new Conflict(Second(from), controller.Origin!.Value);
                stopped = at;
            }
        }
    }

    /// <summary>What opens within one second counts once.</summary>
    public static IEnumerable<Conflict> InrushCurrent(Evidence evidence) => OneASecond(
        from controller in evidence.Site.Controllers
        where IsPowered(controller)
        from moment in Moments(evidence, controller)
        where moment.Opened.Count > 0
        let held = moment.Held.Except(moment.Opened).Sum(opening => Holding(evidence, opening))
        where held + moment.Opened.Sum(opening => Inrush(evidence, opening)) > (controller.Power!.Peak?.InBase ?? Carries(controller.Power))
        select new Conflict(Second(moment.At), controller.Origin!.Value));

    /// <summary>Over a minute late at either end, or on for a tenth, and 5 s, too short or too long.</summary>
    public static IEnumerable<Conflict> SwitchedLate(Evidence evidence) =>
        from done in evidence.Switchings.GroupBy(switching => switching.Opening)
        let opened = done.Single(switching => switching.IsOpen).At
        let closed = done.Single(switching => !switching.IsOpen).At
        let opening = evidence.Openings[done.Key - 1]
        let asked = 1000 * (opening.To - opening.From)
        let off = Math.Abs(closed - opened - asked)
        where opened > (1000 * opening.From) + 60_000 || closed > (1000 * opening.To) + 60_000 || off >= Math.Max(5000, asked / 10.0)
        select new Conflict(opening.From, evidence.Site.Controllers[done.First().Controller].Origin!.Value);

    /// <summary>Each opening and closing of a latching valve drains the capacitor of its controller, known or not how much the valve needs.</summary>
    public static IEnumerable<Conflict> CapacitorNotRecharged(Evidence evidence) =>
        from controller in evidence.Site.Controllers
        where controller.Power?.Capacitor is not null
        let switchings = evidence.Switchings.Where(switching => switching.Controller == controller.Index)
            .Select(switching => (switching.At, Part(evidence, switching.Opening).Valve))
        from at in new ReferenceStore(controller.Power!).TooSoon(switchings)
        select new Conflict(Second(at), controller.Origin!.Value);

    private static IEnumerable<Conflict> OneASecond(IEnumerable<Conflict> conflicts) => conflicts.Distinct();

    /// <summary>Every moment at which a controller switches: what it has on afterwards, and what it opened.</summary>
    private static IEnumerable<(long At, List<int> Held, List<int> Opened)> Moments(Evidence evidence, Controller controller)
    {
        var on = new List<int>();
        foreach (var moment in evidence.Switchings.Where(switching => switching.Controller == controller.Index).GroupBy(switching => switching.At))
        {
            on.AddRange(moment.Where(switching => switching.IsOpen).Select(switching => switching.Opening));
            on.RemoveAll(moment.Where(switching => !switching.IsOpen).Select(switching => switching.Opening).Contains);
            yield return (moment.Key, [.. on], [.. moment.Where(switching => switching.IsOpen).Select(switching => switching.Opening)]);
        }
    }

    private static bool IsPowered(Controller controller) => controller.Power is { Continuous: not null } or { Transformer: not null };

    private static decimal Carries(Model.Power power) => power.Continuous?.InBase ?? power.Transformer!.Value.InBase / power.TransformerVoltage!.Value.InBase;

    private static decimal Holding(Evidence evidence, int opening) => Part(evidence, opening) switch
    {
        (NonLatchingValve valve, _) => valve.Holding?.InBase ?? 0,
        (null, { } load) => load,
        _ => 0,
    };

    private static decimal Inrush(Evidence evidence, int opening) => Part(evidence, opening).Valve switch
    {
        NonLatchingValve valve => valve.Inrush?.InBase ?? 0,
        LatchingValve { Coil: { } coil } => Pulse(PowerOf(evidence, evidence.Openings[opening - 1]), coil.InBase),
        _ => Holding(evidence, opening),
    };

    private static Model.Power PowerOf(Evidence evidence, ReferenceOpening opening) =>
        (opening.Zone >= 0 ? evidence.Site.Zones[opening.Zone].Controller : evidence.Site.Devices[opening.Device].Controller).Power!;

    /// <summary>Without a capacitor a pulse is drawn from the power supply: U / R.</summary>
    private static decimal Pulse(Model.Power power, decimal ohms) =>
        power.Capacitor is null ? (power.ContinuousVoltage ?? power.TransformerVoltage)!.Value.InBase / ohms : 0;

    private static (Valve? Valve, decimal? Load) Part(Evidence evidence, int number)
    {
        var opening = evidence.Openings[number - 1];
        return opening.Zone >= 0 ? (evidence.Site.Zones[opening.Zone].Valve, null)
            : (evidence.Site.Devices[opening.Device].Valve, evidence.Site.Devices[opening.Device].Load?.InBase);
    }

    private static long Second(long milliseconds) => milliseconds / 1000;
}
