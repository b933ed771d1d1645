using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Agronomy;

/// <summary>What plants of a climate need, month by month.</summary>
internal static class CropDemand
{
    /// <summary>Days that the months have on average, so that what is calculated for a month does not hang on the year.</summary>
    private static readonly decimal[] MeanDays = [31, 28.25m, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    /// <summary>Days of a month on average.</summary>
    /// <param name="month">1 to 12.</param>
    public static decimal DaysIn(int month) => MeanDays[month - 1];

    /// <summary>Crop evapotranspiration, ETc = Kc · ETo (FAO 56, eq. 58), in mm/day; null where the plants are not in the ground.</summary>
    /// <param name="plants">The plants.</param>
    /// <param name="weather">The month.</param>
    public static decimal? PerDay(Plants plants, MonthWeather weather)
    {
        ArgumentNullException.ThrowIfNull(plants);
        ArgumentNullException.ThrowIfNull(weather);
        return plants.Coefficients.IsEmpty ? null : plants.Coefficients[weather.Month - 1] * weather.Et;
    }

    /// <summary>What has to be watered, in mm/day: crop evapotranspiration less effective rain, never below 0.</summary>
    /// <param name="coefficient">Crop coefficient of the month.</param>
    /// <param name="weather">The month.</param>
    public static decimal NetPerDay(decimal coefficient, MonthWeather weather)
    {
        ArgumentNullException.ThrowIfNull(weather);
        return Math.Max(0, (coefficient * weather.Et) - (weather.EffectiveRain / MeanDays[weather.Month - 1]));
    }

    /// <summary>
    /// Shares of the peak month's demand in whole per cent, January first: demand of the month / demand of the peak month, both a day. The demand is
    /// the mean of the zones whose plants have a coefficient; where no zone has any, that of grass, with a coefficient of 1. Null for
    /// a month of which the climate says nothing.
    /// </summary>
    /// <param name="zones">The zones that are watered.</param>
    /// <param name="year">Twelve months.</param>
    public static ImmutableArray<decimal?> Shares(IEnumerable<Zone> zones, ImmutableArray<MonthWeather?> year)
    {
        ImmutableArray<decimal?>[] coefficients =
            [.. zones.Select(zone => zone.Plants).OfType<Plants>().Select(plants => plants.Coefficients).Where(months => !months.IsEmpty)];
        if (coefficients.Length == 0) coefficients = [Reference];
        decimal?[] demands =
            [.. year.Select(weather => weather is null ? null : (decimal?)coefficients.Average(months => NetPerDay(months[weather.Month - 1] ?? 0, weather)))];
        var peak = demands.Max() ?? 0;
        return [.. demands.Select(demand =>
            demand is { } some ? peak == 0 ? 0 : Math.Round(100 * some / peak, MidpointRounding.AwayFromZero) : (decimal?)null)];
    }

    private static readonly ImmutableArray<decimal?> Reference = [.. Enumerable.Repeat<decimal?>(1, 12)];
}
