using System.Collections.Immutable;
using NodaTime;
using WaterScript.Agronomy;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;

namespace WaterScript.Answers.Advise;

/// <summary>What the zones of a site need month by month, what its schedules give, and the watering that would meet the need.</summary>
internal sealed class WateringAdvice
{
    private WateringAdvice(Site site, Horizon horizon, ImmutableArray<MonthWeather?> year, ImmutableArray<ZoneAdvice> zones)
    {
        Site = site;
        Horizon = horizon;
        Year = year;
        Zones = zones;
        Shares = CropDemand.Shares(site.Zones.Where(zone => !zone.IsSpare), year);
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>The dates over which what the schedules give is averaged: whole years.</summary>
    public Horizon Horizon { get; }

    /// <summary>The climate, January first; null for months of which it says nothing.</summary>
    public ImmutableArray<MonthWeather?> Year { get; }

    /// <summary>The zones that are in use, in order of the file.</summary>
    public ImmutableArray<ZoneAdvice> Zones { get; }

    /// <summary>
    /// Shares of the peak month in per cent, January first: the mean of all zones that have plants; null for months of which the climate says
    /// nothing.
    /// </summary>
    public ImmutableArray<decimal?> Shares { get; }

    /// <summary>Calculates the advice of a site that was read without an error.</summary>
    /// <param name="site">The site.</param>
    /// <param name="from">First date to look at, or null for the site's first.</param>
    public static WateringAdvice Of(Site site, LocalDate? from = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        var horizon = CheckHorizon.Of(site, from);
        var year = MonthWeather.YearOf(site);
        var ledger = new WaterLedger(site);
        foreach (var run in Timetable.Of(site, horizon, new WorkBudget(Limits.CheckWorkOf(site.SourceLength))).Runs()) ledger.Add(run);
        return new WateringAdvice(site, horizon, year, [.. site.Zones.Where(zone => !zone.IsSpare).Select(zone => Of(zone, site, ledger, horizon, year))]);
    }

    private static ZoneAdvice Of(Zone zone, Site site, WaterLedger ledger, Horizon horizon, ImmutableArray<MonthWeather?> year)
    {
        if (ZoneBalance.LacksFor(zone, site, year) is { } lacks) return new ZoneAdvice(zone, lacks, []);
        var years = horizon.Until.Year - horizon.From.Year;
        var given = ZoneBalance.Of(zone, ledger.DaysOf(zone), horizon, year).GroupBy(month => month.Month)
            .ToDictionary(months => months.Key, months => months.Sum(month => month.Given) / years);
        return new ZoneAdvice(zone, Lacks: null,
            [.. year.OfType<MonthWeather>().Select(weather => MonthAdvice.Of(zone, weather, given.GetValueOrDefault(weather.Month)))]);
    }
}

/// <summary>The advice of a zone.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Lacks">Why nothing can be said, in a few words; null where something can.</param>
/// <param name="Months">The months of which the climate says something, in order.</param>
internal sealed record ZoneAdvice(Zone Zone, string? Lacks, ImmutableArray<MonthAdvice> Months);
