namespace WaterScript.Agronomy;

/// <summary>
/// What the sun brings to a surface that leans towards the equator, in MJ m⁻² day⁻¹ as a mean of a month: Klein, Calculation of monthly average insolation on
/// tilted surfaces, Solar Energy 19 (1977), with the diffuse part of Erbs, Klein and Duffie, Solar Energy 28 (1982). Angles are in radians.
/// </summary>
internal static class TiltedSurface
{
    /// <summary>What the ground throws back, where it is not known: grass and bare soil.</summary>
    public const double UsualAlbedo = 0.2;

    private const double LeastClearness = 0.3, MostClearness = 0.8;
    private const double ShortAfternoon = 81.4;
    private const double LeastNoon = 5;
    private const double RadiansInDegree = Math.PI / 180;

    /// <summary>Whether the sun stands too low at noon for the ratio of the two beams to mean anything.</summary>
    /// <param name="latitude">North positive.</param>
    /// <param name="declination">Of the sun.</param>
    public static bool IsSunTooLow(double latitude, double declination) => (Math.PI / 2) - Math.Abs(latitude - declination) < LeastNoon * RadiansInDegree;

    /// <summary>Radiation on the surface, H_T; 0 where the sun stands below 5° at noon.</summary>
    /// <param name="latitude">North positive.</param>
    /// <param name="day">Number of the day in the year.</param>
    /// <param name="tilt">Of the surface to the ground.</param>
    /// <param name="level">Radiation on level ground, H.</param>
    /// <param name="albedo">Share that the ground throws back.</param>
    public static double Radiation(double latitude, int day, double tilt, double level, double albedo = UsualAlbedo)
    {
        var (angle, declination) = Northern(latitude, Agronomy.Radiation.Declination(day));
        var extraterrestrial = Agronomy.Radiation.Extraterrestrial(latitude, day);
        if (IsSunTooLow(angle, declination) || extraterrestrial <= 0) return 0;
        var diffuse = DiffuseShare(SunsetAngle(angle, declination), level / extraterrestrial);
        return level * (((1 - diffuse) * BeamRatio(angle, declination, tilt)) + (diffuse * (1 + Math.Cos(tilt)) / 2) + (albedo * (1 - Math.Cos(tilt)) / 2));
    }

    /// <summary>
    /// R_b: the beam on the surface to that on level ground, over the day outside the atmosphere, of a place in the north (Klein 1977, eq. 8).
    /// </summary>
    public static double BeamRatio(double latitude, double declination, double tilt)
    {
        var sunset = SunsetAngle(latitude, declination);
        var behind = Math.Min(sunset, SunsetAngle(latitude - tilt, declination));
        return DayOf(latitude - tilt, declination, behind) / DayOf(latitude, declination, sunset);
    }

    /// <summary>D: the share of the radiation of a month that comes from the whole sky (Erbs 1982, of monthly means).</summary>
    /// <param name="sunset">Hour angle of sunset.</param>
    /// <param name="clearness">H to what there is outside the atmosphere; kept within 0.3 and 0.8, for which the equation was found.</param>
    public static double DiffuseShare(double sunset, double clearness)
    {
        var k = Math.Clamp(clearness, LeastClearness, MostClearness);
        return sunset <= ShortAfternoon * RadiansInDegree
            ? 1.391 - (3.560 * k) + (4.189 * k * k) - (2.137 * k * k * k)
            : 1.311 - (3.022 * k) + (3.427 * k * k) - (1.821 * k * k * k);
    }

    /// <summary>South of the equator all is as north of it half a year apart.</summary>
    private static (double Latitude, double Declination) Northern(double latitude, double declination) =>
        latitude < 0 ? (-latitude, -declination) : (latitude, declination);

    private static double DayOf(double latitude, double declination, double until) =>
        (Math.Cos(latitude) * Math.Cos(declination) * Math.Sin(until)) + (until * Math.Sin(latitude) * Math.Sin(declination));

    private static double SunsetAngle(double latitude, double declination) => Math.Acos(Math.Clamp(-Math.Tan(latitude) * Math.Tan(declination), -1, 1));
}
