using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Tests.Simulation;

namespace WaterScript.Tests.Checks.BruteForce;

/// <summary>Conflicts of water, found by adding up the flow of every second.</summary>
internal static class WaterConflicts
{
    private const int BorneSeconds = 10;

    public static IEnumerable<Conflict> FlowOverSupply(Evidence evidence) =>
        from supply in evidence.Site.Supplies
        where supply.Flow is not null
        let limit = Millilitres(supply.Flow!.Value.InBase)
        from at in evidence.Stretches(evidence.Sum(zone => FlowFrom(supply, zone)), flow => flow > limit)
        select new Conflict(at, supply.Origin);

    /// <summary>Where the flow of a zone is not known, nobody can say that it is too little.</summary>
    public static IEnumerable<Conflict> FlowUnderMinimum(Evidence evidence) =>
        from supply in evidence.Site.Supplies
        where supply is { MinimumFlow: not null, HasBypass: false, Vessel: null }
        let limit = Millilitres(supply.MinimumFlow!.Value.InBase)
        let flow = evidence.Sum(zone => !SecondBySecond.Draws(zone.Supply, supply) ? 0 : zone.LitresPerMinute is null ? limit : FlowFrom(supply, zone))
        from at in evidence.Stretches(flow, sum => 0 < sum && sum < limit, longer: BorneSeconds)
        select new Conflict(at, supply.Origin);

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
            var flow = evidence.Sum(zone => FlowFrom(supply, zone));
            var (full, reserve) = (Held(supply.Tank!.Value), Held(supply.Reserve ?? default));
            var (level, refill) = (full, (long)Millilitres(supply.Refill!.Value.InBase));
            for (var index = 0; index < flow.Length; index++)
            {
                var still = index == 0 ? 0 : evidence.At(index) - evidence.At(index - 1) - 1;
                level = Math.Min(full, Math.Min(full, level + (still * refill)) + refill - flow[index]);
                if (level >= reserve) continue;
                yield return new Conflict(evidence.At(index), supply.Origin);
                break;
            }
        }
    }

    /// <summary>Each start that is one too many within the hour that it ends.</summary>
    public static IEnumerable<Conflict> MotorStarts(Evidence evidence) =>
        from device in evidence.Site.Devices
        where device.StartsAnHour is not null
        let starts = evidence.Openings.Where(opening => opening.Device == device.Index).Select(opening => opening.From).ToList()
        from start in starts
        where starts.Count(other => start - 3600 < other && other <= start) > device.StartsAnHour
        select new Conflict(start, device.Origin);

    private static int FlowFrom(Supply supply, Zone zone) => SecondBySecond.Draws(zone.Supply, supply) ? Millilitres(zone.LitresPerMinute ?? 0) : 0;

    /// <summary>A volume, such that a flow in mL/min fills one of it in a second.</summary>
    private static long Held(Quantity volume) => 60L * Millilitres(volume.InBase);

    private static int Millilitres(decimal litres) => (int)(litres * 1000);
}
