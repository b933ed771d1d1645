using WaterScript.Model;

namespace WaterScript.Answers.Usage;

/// <summary>Places on the axes of zones and of schedules: their indexes, and behind them a place for the refill of each tank, by its supply.</summary>
internal static class UsagePlaces
{
    /// <summary>Where the refill of a tank stands.</summary>
    public static int OfTank(UsageAxis axis, Supply tank, Site site)
    {
        ArgumentNullException.ThrowIfNull(tank);
        return Names(axis, site) + tank.Index;
    }

    /// <summary>The tank whose refill stands at a place; null where that is a zone, a schedule, or on another axis.</summary>
    public static Supply? TankAt(UsageAxis axis, int place, Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return axis is UsageAxis.Zone or UsageAxis.Schedule && place >= Names(axis, site) ? site.Supplies[place - Names(axis, site)] : null;
    }

    private static int Names(UsageAxis axis, Site site) => axis == UsageAxis.Zone ? site.Zones.Length : site.Schedules.Length;
}
