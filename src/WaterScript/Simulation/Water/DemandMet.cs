using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>What each zone gets against what its plants need, month by month.</summary>
/// <param name="site">The site.</param>
/// <param name="horizon">The dates that were walked over.</param>
/// <param name="water">What the zones get on them; whole.</param>
internal sealed class DemandMet(Site site, Horizon horizon, PlantWater water)
{
    /// <summary>A month of which fewer days lie in a row of waterings says little.</summary>
    private const int LeastDays = 10;

    private readonly ImmutableArray<MonthWeather?> _year = MonthWeather.YearOf(site);

    private readonly Dictionary<Zone, ImmutableArray<MetMonth>> _months = new(ReferenceEqualityComparer.Instance);

    /// <summary>The zones of which months are out of bounds, with those months.</summary>
    /// <param name="isOut">Whether a month is.</param>
    public IEnumerable<(Zone Zone, ImmutableArray<MetMonth> Months)> Where(Func<MetMonth, bool> isOut)
    {
        foreach (var zone in site.Zones.Where(zone => MissingFor(zone) is null))
        {
            if (!_months.TryGetValue(zone, out var all)) _months[zone] = all = [.. MonthsOf(zone)];
            ImmutableArray<MetMonth> months = [.. all.Where(isOut)];
            if (months.Length > 0) yield return (zone, months);
        }
    }

    /// <summary>What is missing to say something of a zone; null where nothing is.</summary>
    public string? MissingFor(Zone zone) => ZoneBalance.MissingFor(zone, site, _year);

    private IEnumerable<MetMonth> MonthsOf(Zone zone) => ZoneBalance.Of(zone, water.DaysOf(zone), horizon, _year)
        .Where(month => month is { IsKnown: true, SeasonDays: > 0 })
        .GroupBy(month => month.Month)
        .Where(months => months.Average(month => month.SeasonDays) >= LeastDays)
        .OrderBy(months => months.Key)
        .Select(months => MetMonth.Of(months.Key, [.. months]));
}
