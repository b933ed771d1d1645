namespace WaterScript.Agronomy;

/// <summary>
/// Water that short, well watered grass uses, ETo, in mm/day: FAO Irrigation and Drainage Paper 56, Rome 1998, whose equation numbers
/// stand beside the formulas. Below zero, as the formulas may come to in hard frost, is 0.
/// </summary>
internal static class ReferenceEvapotranspiration
{
    /// <summary>FAO Penman–Monteith (eq. 6).</summary>
    /// <param name="coldest">Daily minimum in °C.</param>
    /// <param name="warmest">Daily maximum in °C; the mean temperature is the middle of the two (eq. 9).</param>
    /// <param name="vapourPressure">Actual vapour pressure in kPa.</param>
    /// <param name="wind">Wind 2 m above ground in m/s.</param>
    /// <param name="netRadiation">Rn in MJ m⁻² day⁻¹.</param>
    /// <param name="soilHeat">G, what goes into the ground, in MJ m⁻² day⁻¹; 0 for a single day (eq. 42).</param>
    /// <param name="height">Above sea level in m.</param>
    public static double PenmanMonteith(double coldest, double warmest, double vapourPressure, double wind, double netRadiation, double soilHeat, double height)
    {
        var mean = (coldest + warmest) / 2;
        var slope = Air.SlopeOfSaturation(mean);
        var psychrometric = Air.PsychrometricConstant(Air.Pressure(height));
        var deficit = Air.MeanSaturationPressure(coldest, warmest) - vapourPressure;
        var evaporation = (Radiation.MillimetresPerMegajoule * slope * (netRadiation - soilHeat)) + (psychrometric * 900 / (mean + 273) * wind * deficit);
        return Math.Max(0, evaporation / (slope + (psychrometric * (1 + (0.34 * wind)))));
    }

    /// <summary>
    /// Hargreaves, from temperatures alone (eq. 52), which FAO 56 gives where nothing else is known; it errs low in wind and high in damp places.
    /// </summary>
    /// <param name="coldest">Daily minimum in °C.</param>
    /// <param name="warmest">Daily maximum in °C.</param>
    /// <param name="extraterrestrial">Ra in MJ m⁻² day⁻¹.</param>
    public static double Hargreaves(double coldest, double warmest, double extraterrestrial) => Math.Max(
        0, 0.0023 * (((coldest + warmest) / 2) + 17.8) * Math.Sqrt(warmest - coldest) * Radiation.MillimetresPerMegajoule * extraterrestrial);

    /// <summary>
    /// Heat that goes into the ground in a month, G, in MJ m⁻² day⁻¹: from the months before and after (eq. 43), from the month before alone
    /// (eq. 44), or 0 where that is not known either.
    /// </summary>
    /// <param name="before">Mean temperature of the month before in °C, or null.</param>
    /// <param name="mean">Mean temperature of the month in °C.</param>
    /// <param name="after">Mean temperature of the month after in °C, or null.</param>
    public static double SoilHeatOfMonth(double? before, double mean, double? after) => (before, after) switch
    {
        ({ } previous, { } next) => 0.07 * (next - previous),
        ({ } previous, null) => 0.14 * (mean - previous),
        _ => 0,
    };
}
