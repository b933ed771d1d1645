using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;

namespace WaterScript.Documents.Charts.Years;

/// <summary>The water in the root zone of zones that get and lose the same, day by day: the balance of FAO 56, as the checks calculate it.</summary>
/// <param name="Zones">The zones.</param>
/// <param name="Roots">What their ground holds.</param>
/// <param name="Days">The days.</param>
internal sealed record GroundYear(ImmutableArray<Zone> Zones, RootZone Roots, ImmutableArray<GroundDay> Days)
{
    /// <summary>The grounds that are known, in order of the file; zones with equal ones together.</summary>
    public static IEnumerable<GroundYear> Of(YearChart year)
    {
        var climate = MonthWeather.YearOf(year.Site);
        var grounds = new List<GroundYear>();
        foreach (var zone in year.Site.Zones.Where(zone => !zone.IsSpare && ZoneBalance.MissingFor(zone, year.Site, climate) is null))
        {
            if (RootZone.Of(zone) is not { } roots) continue;
            var days = new List<GroundDay>(year.Days);
            ZoneBalance.Of(zone, DaysOf(year, zone), HorizonOf(year), climate, days.Add);
            var alike = grounds.FindIndex(ground => ground.Roots == roots && ground.Days.SequenceEqual(days));
            if (alike < 0) grounds.Add(new GroundYear([zone], roots, [.. days]));
            else grounds[alike] = grounds[alike] with { Zones = grounds[alike].Zones.Add(zone) };
        }

        return grounds;
    }

    /// <summary>The zones with plants whose ground is not known.</summary>
    public static IEnumerable<Zone> Unknown(YearChart year, IEnumerable<GroundYear> grounds)
    {
        var known = grounds.SelectMany(ground => ground.Zones).Select(zone => zone.Index).ToHashSet();
        return year.Site.Zones.Where(zone => !zone.IsSpare && !zone.WatersNoPlants && !known.Contains(zone.Index));
    }

    /// <summary>The dates.</summary>
    public static Horizon HorizonOf(YearChart year) => new(year.From, year.From.PlusDays(year.Days));

    /// <summary>The dates on which a zone is watered, in order.</summary>
    public static IReadOnlyList<WateredDay> DaysOf(YearChart year, Zone zone)
    {
        var first = CivilDate.DayNumberOf(year.From);
        return [.. year.Seconds[zone.Index].Index().Where(day => day.Item > 0).Select(day => new WateredDay(first + day.Index, day.Item))];
    }

    /// <summary>Days in a row on which plants lack water: the first, from 0, and the day after the last.</summary>
    public IEnumerable<(int From, int Until)> DrySpells()
    {
        for (var day = 0; day < Days.Length; day++)
        {
            if (!Days[day].End.IsStressed) continue;
            var from = day;
            while (day < Days.Length && Days[day].End.IsStressed) day++;
            yield return (from, day);
        }
    }
}
