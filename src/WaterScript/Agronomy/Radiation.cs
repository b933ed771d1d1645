namespace WaterScript.Agronomy;

/// <summary>
/// What the sun brings and the ground sends back: FAO Irrigation and Drainage Paper 56, Rome 1998, whose equation numbers stand beside
/// the formulas. Radiation is in MJ m⁻² day⁻¹, angles in radians, J is the number of the day in the year, from 1.
/// </summary>
internal static class Radiation
{
    /// <summary>Water that 1 MJ m⁻² evaporates, in mm (eq. 20: the inverse of 2.45 MJ/kg).</summary>
    public const double MillimetresPerMegajoule = 0.408;

    /// <summary>Adjustment coefficient of eq. 50 for places inland.</summary>
    public const double Inland = 0.16;

    /// <summary>Adjustment coefficient of eq. 50 for places near a coast.</summary>
    public const double Coast = 0.19;

    private const double SolarConstant = 0.0820; // MJ m⁻² min⁻¹
    private const double StefanBoltzmann = 4.903e-9; // MJ K⁻⁴ m⁻² day⁻¹
    private const double GrassAlbedo = 0.23;
    private const double ZeroCelsius = 273.16; // K, as eq. 39 has it

    /// <summary>
    /// Clearness where the sun does not rise and eq. 37 gives nothing to compare with: the middle of 0.4 to 0.6 (FAO 56, p. 75, for humid places).
    /// </summary>
    private const double ClearnessWithoutSun = 0.5;

    /// <summary>Inverse relative distance from Earth to sun, dr (eq. 23).</summary>
    public static double InverseDistance(int day) => 1 + (0.033 * Math.Cos(2 * Math.PI * day / 365));

    /// <summary>Declination of the sun, δ (eq. 24).</summary>
    public static double Declination(int day) => 0.409 * Math.Sin((2 * Math.PI * day / 365) - 1.39);

    /// <summary>Hour angle of sunset, ωs (eq. 25): 0 where the sun does not rise, π where it does not set.</summary>
    /// <param name="latitude">North positive.</param>
    /// <param name="day">Number of the day in the year.</param>
    public static double SunsetAngle(double latitude, int day) => Math.Acos(Math.Clamp(-Math.Tan(latitude) * Math.Tan(Declination(day)), -1, 1));

    /// <summary>Extraterrestrial radiation, Ra (eq. 21).</summary>
    /// <param name="latitude">North positive.</param>
    /// <param name="day">Number of the day in the year.</param>
    public static double Extraterrestrial(double latitude, int day)
    {
        var (angle, declination) = (SunsetAngle(latitude, day), Declination(day));
        return 24 * 60 / Math.PI * SolarConstant * InverseDistance(day)
            * ((angle * Math.Sin(latitude) * Math.Sin(declination)) + (Math.Cos(latitude) * Math.Cos(declination) * Math.Sin(angle)));
    }

    /// <summary>Daylight in hours, N (eq. 34).</summary>
    /// <param name="latitude">North positive.</param>
    /// <param name="day">Number of the day in the year.</param>
    public static double Daylight(double latitude, int day) => 24 / Math.PI * SunsetAngle(latitude, day);

    /// <summary>Solar radiation from sunshine, Rs (eq. 35, with the coefficients of Ångström that FAO 56 recommends where none are known).</summary>
    /// <param name="sunshine">Bright sunshine in hours; more than the daylight counts as all of it.</param>
    /// <param name="daylight">Daylight in hours.</param>
    /// <param name="extraterrestrial">Ra.</param>
    public static double FromSunshine(double sunshine, double daylight, double extraterrestrial) =>
        daylight > 0 ? (0.25 + (0.50 * Math.Min(1, sunshine / daylight))) * extraterrestrial : 0;

    /// <summary>Solar radiation where no sunshine is known, Rs (eq. 50); no more than that of a clear day.</summary>
    /// <param name="coldest">Daily minimum in °C.</param>
    /// <param name="warmest">Daily maximum in °C.</param>
    /// <param name="coefficient"><see cref="Inland"/> or <see cref="Coast"/>.</param>
    /// <param name="extraterrestrial">Ra.</param>
    /// <param name="clearSky">Rso.</param>
    public static double FromTemperatures(double coldest, double warmest, double coefficient, double extraterrestrial, double clearSky) =>
        Math.Min(clearSky, coefficient * Math.Sqrt(warmest - coldest) * extraterrestrial);

    /// <summary>Solar radiation of a clear day, Rso (eq. 37).</summary>
    /// <param name="height">Above sea level in m.</param>
    /// <param name="extraterrestrial">Ra.</param>
    public static double ClearSky(double height, double extraterrestrial) => (0.75 + (2e-5 * height)) * extraterrestrial;

    /// <summary>Net radiation, Rn = Rns − Rnl (eq. 40).</summary>
    /// <param name="solar">Rs.</param>
    /// <param name="netLongwave">Rnl.</param>
    public static double Net(double solar, double netLongwave) => NetShortwave(solar) - netLongwave;

    /// <summary>Net solar radiation of grass, Rns (eq. 38).</summary>
    /// <param name="solar">Rs.</param>
    public static double NetShortwave(double solar) => (1 - GrassAlbedo) * solar;

    /// <summary>Net outgoing longwave radiation, Rnl (eq. 39).</summary>
    /// <param name="coldest">Daily minimum in °C.</param>
    /// <param name="warmest">Daily maximum in °C.</param>
    /// <param name="vapourPressure">Actual vapour pressure in kPa.</param>
    /// <param name="solar">Rs.</param>
    /// <param name="clearSky">Rso.</param>
    public static double NetLongwave(double coldest, double warmest, double vapourPressure, double solar, double clearSky)
    {
        var clearness = clearSky > 0 ? Math.Min(1, solar / clearSky) : ClearnessWithoutSun;
        var emitted = StefanBoltzmann * (Math.Pow(coldest + ZeroCelsius, 4) + Math.Pow(warmest + ZeroCelsius, 4)) / 2;
        return emitted * (0.34 - (0.14 * Math.Sqrt(vapourPressure))) * ((1.35 * clearness) - 0.35);
    }
}
