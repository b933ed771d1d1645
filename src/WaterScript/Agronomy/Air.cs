namespace WaterScript.Agronomy;

/// <summary>
/// Pressure, vapour and wind: Allen, Pereira, Raes and Smith, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, Rome 1998,
/// whose equation numbers stand beside the formulas. Temperatures are in °C, pressures in kPa.
/// </summary>
internal static class Air
{
    /// <summary>Wind where none is known, in m/s 2 m above ground (FAO 56, p. 63: the mean of over 2000 stations).</summary>
    public const double UsualWind = 2;

    /// <summary>Atmospheric pressure in kPa (eq. 7).</summary>
    /// <param name="height">Above sea level in m.</param>
    public static double Pressure(double height) => 101.3 * Math.Pow((293 - (0.0065 * height)) / 293, 5.26);

    /// <summary>Psychrometric constant in kPa/°C (eq. 8).</summary>
    /// <param name="pressure">Atmospheric pressure in kPa.</param>
    public static double PsychrometricConstant(double pressure) => 0.665e-3 * pressure;

    /// <summary>Vapour pressure of saturated air, e°(T), in kPa (eq. 11).</summary>
    /// <param name="celsius">Temperature in °C.</param>
    public static double SaturationPressure(double celsius) => 0.6108 * Math.Exp(17.27 * celsius / (celsius + 237.3));

    /// <summary>Mean vapour pressure of saturated air over a day, es, in kPa (eq. 12).</summary>
    /// <param name="coldest">Daily minimum in °C.</param>
    /// <param name="warmest">Daily maximum in °C.</param>
    public static double MeanSaturationPressure(double coldest, double warmest) => (SaturationPressure(coldest) + SaturationPressure(warmest)) / 2;

    /// <summary>Slope of the curve of saturation vapour pressure, Δ, in kPa/°C (eq. 13).</summary>
    /// <param name="celsius">Temperature in °C.</param>
    public static double SlopeOfSaturation(double celsius) => 4098 * SaturationPressure(celsius) / Math.Pow(celsius + 237.3, 2);

    /// <summary>Actual vapour pressure, ea, in kPa, from the extremes of relative humidity (eq. 17).</summary>
    /// <param name="coldest">Daily minimum in °C.</param>
    /// <param name="warmest">Daily maximum in °C.</param>
    /// <param name="least">Least relative humidity in per cent.</param>
    /// <param name="greatest">Greatest relative humidity in per cent.</param>
    public static double VapourPressure(double coldest, double warmest, double least, double greatest) =>
        ((SaturationPressure(coldest) * greatest) + (SaturationPressure(warmest) * least)) / 200;

    /// <summary>Actual vapour pressure in kPa where no humidity is known: dew falls at the daily minimum (eq. 48). Too high in dry places.</summary>
    /// <param name="coldest">Daily minimum in °C.</param>
    public static double VapourPressure(double coldest) => SaturationPressure(coldest);

    /// <summary>Wind speed 2 m above ground in m/s, u2 (eq. 47), over short grass.</summary>
    /// <param name="speed">Measured speed in m/s.</param>
    /// <param name="height">Height of the measurement in m; above 0.1 m, where the logarithm is that of 1.</param>
    public static double WindAtTwoMetres(double speed, double height) => speed * 4.87 / Math.Log((67.8 * height) - 5.42);
}
