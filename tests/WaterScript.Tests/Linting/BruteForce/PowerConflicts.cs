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
        from conflict in Stretches(Moments(evidence, controller).Select(moment => (moment.At, moment.Held)), controller, (_, open) =>
            open.Count(opening => evidence.Openings[opening - 1].Zone >= 0) > controller.AtMostZones, least: 1)
        select conflict;

    /// <summary>What lasts less than a second is left to the inrush.</summary>
    public static IEnumerable<Conflict> HoldingCurrent(Evidence evidence) =>
        from controller in evidence.Site.Controllers
        where IsPowered(controller)
        let recharges = Recharges(evidence, controller)
        from conflict in Stretches(
            WithEnds(Moments(evidence, controller).Select(moment => (moment.At, moment.Held)), recharges),
            controller,
            (at, open) => open.Sum(opening => Holding(evidence, opening)) + RechargeAt(recharges, controller, at) > Carries(controller.Power!),
            least: 1000)
        select conflict;

    /// <summary>The moments at which something is switched, and those at which a capacitor is full.</summary>
    private static IEnumerable<(long At, List<int> On)> WithEnds(IEnumerable<(long At, List<int> On)> moments, List<(long At, long Until)> recharges)
    {
        var all = moments.ToList();
        var ends = recharges.Select(recharge => recharge.Until).Where(until => all.TrueForAll(moment => moment.At != until)).Distinct()
            .Select(until => (At: until, all.FindLast(moment => moment.At < until).On)).ToList();
        return all.Concat(ends).OrderBy(moment => moment.At);
    }

    /// <summary>From each pulse of a capacitor until it is full, if no other comes.</summary>
    private static List<(long At, long Until)> Recharges(Evidence evidence, Controller controller) =>
        controller.Power is { Capacitor: not null, Recharge: not null } power ? [.. new ReferenceStore(power).Recharges(Pulses(evidence, controller))] : [];

    /// <summary>What a capacitor draws then, in A: P / U.</summary>
    private static decimal RechargeAt(List<(long At, long Until)> recharges, Controller controller, long at) =>
        recharges.FindLastIndex(recharge => recharge.At <= at) is >= 0 and var last && at < recharges[last].Until
            ? controller.Power!.Recharge!.Value.InBase / (controller.Power.ContinuousVoltage ?? controller.Power.TransformerVoltage)!.Value.InBase
            : 0;

    /// <summary>What begins again in the second in which it stopped has not stopped.</summary>
    private static IEnumerable<Conflict> Stretches(
        IEnumerable<(long At, List<int> On)> moments, Controller controller, Func<long, List<int>, bool> isOver, int least)
    {
        long? since = null;
        var stopped = long.MinValue;
        foreach (var (at, on) in moments)
        {
            if (isOver(at, on)) since ??= at;
            else if (since is { } from)
            {
                since = null;
                if (at - from < least) continue;
                if (Second(from) != Second(stopped)) yield return new Conflict(Second(from), controller.Origin!.Value);
                stopped = at;
            }
        }
    }

    /// <summary>What opens, closes by a pulse of its own, or begins to recharge within one second counts once.</summary>
    public static IEnumerable<Conflict> InrushCurrent(Evidence evidence) => OneASecond(
        from controller in evidence.Site.Controllers
        where IsPowered(controller)
        let recharges = Recharges(evidence, controller)
        from moment in Moments(evidence, controller)
        let most = controller.Power!.Peak?.InBase ?? Carries(controller.Power!)
        let closing = moment.Closed.Where(opening => Part(evidence, opening).Valve is LatchingValve).Sum(opening => Inrush(evidence, opening))
        where moment.Opened.Count > 0 || closing > 0 || recharges.Exists(recharge => recharge.At == moment.At)
        let held = moment.Held.Except(moment.Opened).Sum(opening => Holding(evidence, opening))
        let drawn = held + moment.Opened.Sum(opening => Inrush(evidence, opening)) + closing + RechargeAt(recharges, controller, moment.At)
        where drawn > most
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
        from at in new ReferenceStore(controller.Power!).TooSoon(Pulses(evidence, controller))
        select new Conflict(Second(at), controller.Origin!.Value);

    private static IEnumerable<(long At, Valve? Valve)> Pulses(Evidence evidence, Controller controller) =>
        evidence.Switchings.Where(switching => switching.Controller == controller.Index)
            .Select(switching => (switching.At, Part(evidence, switching.Opening).Valve));

    private static IEnumerable<Conflict> OneASecond(IEnumerable<Conflict> conflicts) => conflicts.Distinct();

    /// <summary>Every moment at which a controller switches: what it has on afterwards, and what it opened and closed.</summary>
    private static IEnumerable<(long At, List<int> Held, List<int> Opened, List<int> Closed)> Moments(Evidence evidence, Controller controller)
    {
        var on = new List<int>();
        foreach (var moment in evidence.Switchings.Where(switching => switching.Controller == controller.Index).GroupBy(switching => switching.At))
        {
            List<int> opened = [.. moment.Where(switching => switching.IsOpen).Select(switching => switching.Opening)];
            List<int> closed = [.. moment.Where(switching => !switching.IsOpen).Select(switching => switching.Opening)];
            on.AddRange(opened);
            on.RemoveAll(closed.Contains);
            yield return (moment.Key, [.. on], opened, closed);
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
        evidence.Site.Controllers[opening.Controller].Power!;

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
