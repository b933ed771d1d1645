using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Simulation;

/// <summary>The daylight at a site, for rules of good practice.</summary>
internal sealed class Daylight
{
    private const int MiddleOfMonth = 15;

    private readonly SunTimes _sun;
    private readonly Dictionary<int, bool> _longMonths = [];

    private Daylight(SunTimes sun) => _sun = sun;

    /// <summary>That of a site; null where its location is not known.</summary>
    public static Daylight? Of(SimulationContext context) =>
        context.Site.Position is { } position ? new Daylight(SunTimes.Of(position, context.WallClock)) : null;

    /// <summary>The sunrise of a date, in Unix seconds, or null.</summary>
    public long? Sunrise(int day) => _sun.EventOn(day, SunEvent.Sunrise);

    /// <summary>Whether the sun is up for longer than some hours in the month of a date, by the middle of the month.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    /// <param name="hours">The hours.</param>
    public bool IsInMonthLighterThan(int day, int hours)
    {
        var (year, month, _) = CivilDate.FromDayNumber(day);
        if (_longMonths.TryGetValue((year * 12) + month, out var isLong)) return isLong;
        var middle = CivilDate.DayNumberOf(year, month, MiddleOfMonth);
        return _longMonths[(year * 12) + month] = _sun.EventOn(middle, SunEvent.Sunrise) is { } rise && _sun.EventOn(middle, SunEvent.Sunset) is { } set
            && set - rise > hours * 3_600L;
    }

    /// <summary>Whether it is not known at a site where it matters.</summary>
    public static bool IsLackingAt(Site site) => site.Position is null && site.Zones.Any(zone => zone.WatersFromAbove);
}
