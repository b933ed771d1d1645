using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// The share of the written run times that a schedule gives on a date: its own scale, else the site's. A manual schedule
/// and an extra pass run as written unless they have a scale of their own.
/// </summary>
internal sealed class ScaleTable
{
    /// <summary>The share that changes nothing, in per cent.</summary>
    public const decimal AsWritten = 100;

    private readonly Scale? _scale;
    private readonly decimal _fixed;

    private ScaleTable(Scale? scale, decimal fixedPercent)
    {
        _scale = scale;
        _fixed = fixedPercent;
    }

    /// <summary>The greatest share that it ever gives, in per cent: no pass is longer than one with this.</summary>
    public decimal Greatest => _scale switch
    {
        MonthlyScale monthly => monthly.Percents.Max(percent => percent ?? AsWritten),
        DatedScale dated => dated.Since.Select(since => since.Percent).Append(AsWritten).Max(),
        _ => _fixed,
    };

    /// <summary>The share of each month, in per cent, where it is the same every year; else null. A month without one is as written.</summary>
    public ImmutableArray<decimal?>? ByMonth => (_scale as MonthlyScale)?.Percents;

    /// <summary>The shares that it gives from a date on, in per cent, each once.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    public IEnumerable<decimal> From(int day) => _scale switch
    {
        MonthlyScale monthly => monthly.Percents.Select(percent => percent ?? AsWritten).Distinct(),
        DatedScale dated => dated.Since.Where(since => CivilDate.DayNumberOf(since.From) > day).Select(since => since.Percent).Append(PercentSince(dated, day))
            .Distinct(),
        _ => [_fixed],
    };

    /// <summary>The scale of a schedule.</summary>
    public static ScaleTable For(Schedule schedule, Site site)
    {
        var use = schedule.Scale ?? (schedule.IsManual || schedule.IsExtra ? null : site.Scale);
        var named = use?.Name is { } name ? site.Scales.FirstOrDefault(scale => scale.Name == name) : null;
        return new ScaleTable(named is ClimateScale climate ? OfClimate(climate, schedule, site) : named, use?.Percent ?? AsWritten);
    }

    /// <summary>The share on a date, in per cent.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    public decimal PercentOn(int day) => _scale switch
    {
        MonthlyScale monthly => monthly.Percents[CivilDate.FromDayNumber(day).Month - 1] ?? AsWritten,
        DatedScale dated => PercentSince(dated, day),
        _ => _fixed,
    };

    /// <summary>The shares of each month, of the plants that the schedule waters.</summary>
    private static MonthlyScale OfClimate(ClimateScale scale, Schedule schedule, Site site) =>
        new(scale.Name, scale.Label, scale.Origin, CropDemand.Shares(Waterings.ZonesIn(schedule.Steps), MonthWeather.YearOf(site)));

    private static decimal PercentSince(DatedScale scale, int day)
    {
        var percent = AsWritten;
        foreach (var since in scale.Since)
        {
            if (CivilDate.DayNumberOf(since.From) > day) break;
            percent = since.Percent;
        }

        return percent;
    }
}
