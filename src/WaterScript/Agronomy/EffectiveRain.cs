namespace WaterScript.Agronomy;

/// <summary>Share of the rain that plants can use.</summary>
internal static class EffectiveRain
{
    private const decimal Bend = 75;

    /// <summary>
    /// Effective rain of a month in mm: 0.8 P − 25 above 75 mm, else 0.6 P − 10, never below 0 (Brouwer and Heibloem, Irrigation Water Management:
    /// Irrigation Water Needs, FAO Training Manual 3, 1986; from memory). For slopes of at most 4 to 5 %.
    /// </summary>
    /// <param name="rain">Rain of the whole month in mm.</param>
    public static decimal OfMonth(decimal rain) => rain > Bend ? (0.8m * rain) - 25 : Math.Max(0, (0.6m * rain) - 10);
}
