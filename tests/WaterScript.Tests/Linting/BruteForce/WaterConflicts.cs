using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Tests.Simulation;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>Conflicts of water, found by adding up the flow of every second.</summary>
internal static class WaterConflicts
{
    private const int BorneSeconds = 10;
    private const int HammerMillilitres = 20_000;
    private const int Window = 24 * 3600;

    public static IEnumerable<Conflict> FlowOverSupply(Evidence evidence) =>
        from supply in evidence.Site.Supplies
        where supply.Flow is not null
        let limit = Millilitres(supply.Flow!.Value.InBase)
        from at in evidence.Stretches(evidence.Sum(zone => FlowFrom(supply, zone), longestOverlap: OverlapSeconds), flow => flow > limit)
        select new Conflict(at, supply.Origin);

    public static IEnumerable<Conflict> FlowOverPump(Evidence evidence) =>
        from device in evidence.Site.Devices
        where device.Kind != DeviceKind.Injector && device.Flow is not null
        let limit = Millilitres(device.Flow!.Value.InBase)
        from at in evidence.Stretches(evidence.Sum(zone => Serves(device, zone) ? Millilitres(zone.LitresPerMinute ?? 0) : 0), flow => flow > limit)
        select new Conflict(at, device.Origin);

    /// <summary>An overlap of a change-over up to this many seconds is no watering.</summary>
    private const int OverlapSeconds = 5;

    /// <summary>Where the flow of a zone is not known, nobody can say that it is too little.</summary>
    public static IEnumerable<Conflict> FlowUnderMinimum(Evidence evidence) =>
        from supply in evidence.Site.Supplies
        where supply is { MinimumFlow: not null, HasBypass: false }
        let limit = Millilitres(supply.MinimumFlow!.Value.InBase)
        let flow = evidence.Sum(zone => !SecondBySecond.Draws(zone.Supply, supply) ? 0 : zone.LitresPerMinute is null ? limit : FlowFrom(supply, zone))
        from at in evidence.Stretches(flow, sum => 0 < sum && sum < limit && !IsExcused(evidence, supply, sum / 1000.0), longer: BorneSeconds)
        select new Conflict(at, supply.Origin);

    /// <summary>
    /// A pressure tank with its pressures excuses what its pump bears: it is on for V / (Q − q) minutes and off for V / q, and starts once in that time.
    /// Where one of these is not known, nothing is found.
    /// </summary>
    private static bool IsExcused(Evidence evidence, Supply supply, double flow)
    {
        if (supply.PressureTank?.Value is not { CutIn: { } low, CutOut: { } high, Volume: var volume }) return false;
        var starts = evidence.Site.Devices
            .Where(device => device.Kind == DeviceKind.Pump && device.Zones.Any(zone => SecondBySecond.Draws(zone.Supply, supply)))
            .Select(device => device.StartsAnHour?.Value).Min();
        if (starts is null || supply.Flow is not { } most || (double)most.InBase <= flow) return true;
        var water = (double)volume.InBase * (1 - (((double)low.InBase + 1.01325) / ((double)high.InBase + 1.01325)));
        return 60 / ((water / ((double)most.InBase - flow)) + (water / flow)) <= starts;
    }

    public static IEnumerable<Conflict> DailyVolume(Evidence evidence)
    {
        foreach (var supply in evidence.Site.Supplies.Where(supply => supply.Daily is not null))
        {
            var flow = evidence.Sum(zone => FlowFrom(supply, zone));
            foreach (var (date, first, end) in evidence.AllDates)
            {
                long volume = 0;
                for (var index = first; index < end; index++) volume += flow[index];
                if (volume > 60 * Millilitres(supply.Daily!.Value.InBase)) yield return new Conflict(evidence.StartOf(date), supply.Origin);
            }
        }
    }

    /// <summary>
    /// The second in which a tank, full at the start, comes under its reserve; once is enough. A tank that refills another is not judged, nor one of
    /// which the refill is not known.
    /// </summary>
    public static IEnumerable<Conflict> TankRunsDry(Evidence evidence)
    {
        foreach (var supply in evidence.Site.Supplies.Where(supply => supply is { Tank: not null, Refill: not null }))
        {
            if (evidence.Site.Supplies.Any(other => other != supply && other.Tank is not null && SecondBySecond.Draws(other.FedBy, supply))) continue;
            var flow = evidence.Sum(zone => FlowFrom(supply, zone) - ReturnTo(supply, zone));
            var (full, reserve) = (Held(supply.Tank!.Value), Held(supply.Reserve ?? default));
            var (level, refill) = (full, (long)Millilitres(supply.Refill!.Value.InBase));
            var (low, high) = supply is { RefillFrom: { } from, RefillTo: { } to } ? (Held(from), Held(to)) : (long.MaxValue, long.MaxValue);
            var isOn = false;
            for (var index = 0; index < flow.Length; index++)
            {
                var still = index == 0 ? 0 : evidence.At(index) - evidence.At(index - 1) - 1;
                if (IsOn(0) && refill > 0)
                {
                    var needed = Math.Min(still, high == long.MaxValue ? still : (high - level + refill - 1) / refill);
                    level = Math.Min(full, level + (needed * refill));
                }

                level = Math.Min(full, level + (IsOn(flow[index]) ? refill : 0) - flow[index]);
                if (level >= reserve) continue;
                yield return new Conflict(evidence.At(index), supply.Origin);
                break;
            }

            bool IsOn(long drawn)
            {
                if (level >= high) isOn = false;
                if (level <= low || level - drawn < low) isOn = true;
                return isOn;
            }
        }
    }

    /// <summary>Each start that is one too many within the hour that it ends.</summary>
    public static IEnumerable<Conflict> PumpStarts(Evidence evidence) =>
        from device in evidence.Site.Devices
        where device.StartsAnHour is not null
        let starts = SecondBySecond.Together(evidence.Openings.Where(opening => opening.Device == device.Index)).ConvertAll(opening => opening.From)
        from start in starts
        where starts.Count(other => start - 3600 < other && other <= start) > device.StartsAnHour
        select new Conflict(start, device.Origin);

    /// <summary>Valves that close in one millisecond. What closes while a pump or a master of it has been off stops no flow.</summary>
    public static IEnumerable<Conflict> WaterHammer(Evidence evidence) =>
        from closing in evidence.Switchings.Where(switching => !switching.IsOpen && evidence.Openings[switching.Opening - 1].Zone >= 0)
            .GroupBy(switching => switching.At)
        where closing.Count() > 1
        let zones = closing.Select(switching => evidence.Site.Zones[evidence.Openings[switching.Opening - 1].Zone])
            .Where(zone => IsFed(evidence, zone, closing.Key)).ToList()
        from supply in evidence.Site.Supplies
        where supply.Flow is not null
        let flows = zones.Select(zone => FlowFrom(supply, zone)).Where(flow => flow > 0).ToList()
        where flows.Count > 1 && 2 * flows.Sum() > Millilitres(supply.Flow!.Value.InBase) && flows.Sum() > HammerMillilitres
        select new Conflict(closing.Key / 1000, supply.Origin);

    /// <summary>
    /// A gap between the zones of an output of a pump that it is reported to stay on through, and does for more than it may with no zone of the pump open.
    /// What lead and lag alone would bridge is meant.
    /// </summary>
    public static IEnumerable<Conflict> PumpWithoutFlow(Evidence evidence) =>
        from pump in evidence.Site.Devices
        where pump.Kind == DeviceKind.Pump && !IsRelieved(pump)
        let bridged = (pump.StopsAfter - pump.StartsAfter).TotalSeconds
        let flows = SecondBySecond.Together(evidence.Openings.Where(opening => opening.Zone >= 0 && Serves(pump, evidence.Site.Zones[opening.Zone])))
        from output in SecondBySecond.OutputsOf(pump)
        let working = evidence.Openings.Where(opening => opening.Device == pump.Index && opening.Controller == output.Controller).ToList()
        let zones = evidence.Openings.Where(opening =>
            opening.Zone >= 0 && Serves(pump, evidence.Site.Zones[opening.Zone]) && output.Serves(evidence.Site.Zones[opening.Zone]))
        from gap in Gaps(zones)
        where gap.To - gap.From > bridged && gap.To - gap.From <= pump.Bridges.TotalSeconds
        from still in Between(flows, gap.From, gap.To)
        let alone = working.Sum(opening => Math.Max(0, Math.Min(still.To, opening.To) - Math.Max(still.From, opening.From)))
        where alone > BorneSeconds
        select new Conflict(still.From, pump.Origin);

    /// <summary>What some stretches leave of another.</summary>
    private static IEnumerable<(long From, long To)> Between(IEnumerable<(long From, long To)> flows, long from, long to)
    {
        foreach (var flow in flows.Where(flow => flow.To > from && flow.From < to))
        {
            if (flow.From > from) yield return (from, flow.From);
            from = Math.Max(from, flow.To);
        }

        if (from < to) yield return (from, to);
    }

    /// <summary>Each opening after the seconds of which more than 12 h of the last 24 h were open.</summary>
    public static IEnumerable<Conflict> VacuumBreakerHours(Evidence evidence) =>
        from zone in evidence.Site.Zones
        where zone.Supply is { HasAtmosphericBackflow: true }
        let openings = evidence.Openings.Where(opening => opening.Zone == zone.Index).ToList()
        from opening in openings
        let near = openings.Where(other => other.From <= opening.From && other.To > opening.From - Window).ToList()
        where near.Sum(other => other.To - other.From) > Window / 2
        let ends = Enumerable.Range(1, (int)(opening.To - opening.From)).Select(seconds => opening.From + seconds)
        where ends.Any(end => near.Sum(other => Math.Max(0, Math.Min(end, other.To) - Math.Max(end - Window, other.From))) > Window / 2)
        select new Conflict(opening.From, zone.Origin);

    /// <summary>Whether each pump and master of a zone is on before a millisecond.</summary>
    private static bool IsFed(Evidence evidence, Zone zone, long at) => evidence.Site.Devices
        .Where(device => device.Kind != DeviceKind.Injector && Serves(device, zone))
        .All(device => SecondBySecond.OutputsOf(device).Any(output => evidence.Switchings.LastOrDefault(switching => switching.At < at
            && switching.Controller == output.Controller && evidence.Openings[switching.Opening - 1].Device == device.Index).IsOpen));

    private static bool Serves(Device device, Zone zone) =>
        zone.Controller is not null && device.Supply is { } supply ? SecondBySecond.Draws(zone.Supply, supply) : device.Zones.Contains(zone);

    /// <summary>Whether what the pump presses against gives way.</summary>
    private static bool IsRelieved(Device pump) =>
        (pump.Supply is { } supply ? [supply] : pump.Zones.Select(zone => zone.Supply))
            .All(supply => supply is { HasBypass: true } or { PressureTank.Value.CutIn: not null });

    /// <summary>Stretches between openings in which none is open.</summary>
    private static IEnumerable<(long From, long To)> Gaps(IEnumerable<ReferenceOpening> openings)
    {
        long? closed = null;
        foreach (var opening in openings.OrderBy(opening => opening.From))
        {
            if (closed < opening.From) yield return (closed.Value, opening.From);
            closed = Math.Max(closed ?? opening.To, opening.To);
        }
    }

    private static int FlowFrom(Supply supply, Zone zone) => SecondBySecond.Draws(zone.Supply, supply) ? Millilitres(zone.LitresPerMinute ?? 0) : 0;

    /// <summary>What runs back, in mL/min: a share of all that the zone takes, from wherever it draws.</summary>
    private static int ReturnTo(Supply supply, Zone zone) =>
        zone.Returns?.Value is { Percent: var percent, Supply: var to } && to == supply ? Millilitres((zone.LitresPerMinute ?? 0) * percent / 100) : 0;

    /// <summary>A volume, such that a flow in mL/min fills one of it in a second.</summary>
    private static long Held(Quantity volume) => 60L * Millilitres(volume.InBase);

    private static int Millilitres(decimal litres) => (int)(litres * 1000);
}
