using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>What a panel brings into its battery in a day of each month.</summary>
/// <param name="JoulesADay">January first; null for a month of which neither sunshine nor temperatures are known.</param>
/// <param name="TooLow">The months in which the sun stands too low at noon to count on, from 1.</param>
internal sealed record PanelYield(ImmutableArray<decimal?> JoulesADay, ImmutableArray<int> TooLow)
{
    /// <summary>Share of the yield that reaches the battery where it is not given, in per cent; common practice.</summary>
    public const decimal UsualEfficiencyPercent = 60;

    private const double MegajoulesInKilowattHour = 3.6;
    private const int SecondsInHour = 3600;
    private const int Decimals = 4;

    /// <summary>
    /// The yield of a panel at a site: W · H / 3.6 · efficiency, in Wh, rounded to four decimals so that all machines calculate on from the same number.
    /// </summary>
    public static PanelYield Of(Site site, SolarPanel panel)
    {
        if (site is not { Position: { } position, Climate: { } climate }) return new PanelYield([.. new decimal?[12]], []);
        var latitude = position.Latitude * Math.PI / 180;
        var tilt = (double)(panel.Tilt?.InBase ?? 0) * Math.PI / 180;
        var watts = panel.Power.InBase * (panel.EfficiencyPercent ?? UsualEfficiencyPercent) / 100;
        var solar = MonthWeather.SolarOf(climate, position);
        decimal? Joules(int index)
        {
            if (solar[index] is not { } level) return null;
            var hours = TiltedSurface.Radiation(latitude, MonthWeather.MiddleOf(index + 1), tilt, level) / MegajoulesInKilowattHour;
            return Math.Round(watts * (decimal)hours, Decimals) * SecondsInHour;
        }

        return new PanelYield(
            [.. Enumerable.Range(0, 12).Select(Joules)],
            [.. Enumerable.Range(1, 12).Where(month => IsTooLow(latitude, MonthWeather.MiddleOf(month)))]);
    }

    private static bool IsTooLow(double latitude, int day) => TiltedSurface.IsSunTooLow(latitude, Radiation.Declination(day));
}
