using WaterScript.Model;
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

    /// <summary>Each start that is one too many within the hour that it ends.</summary>
    public static IEnumerable<Conflict> MotorStarts(Evidence evidence) =>
        from device in evidence.Site.Devices
        where device.StartsAnHour is not null
        let starts = evidence.Openings.Where(opening => opening.Device == device.Index).Select(opening => opening.From).ToList()
        from start in starts
        where starts.Count(other => start - 3600 < other && other <= start) > device.StartsAnHour
        select new Conflict(start, device.Origin);

    private static int FlowFrom(Supply supply, Zone zone) => SecondBySecond.Draws(zone.Supply, supply) ? Millilitres(zone.LitresPerMinute ?? 0) : 0;

    private static int Millilitres(decimal litres) => (int)(litres * 1000);
}
