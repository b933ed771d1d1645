using System.Collections.Immutable;

namespace WaterScript.Quantities;

/// <summary>
/// The units of the language. US customary units are exact by definition: the international inch is 25.4 mm and the
/// US gallon 231 cubic inches (NIST Special Publication 811, appendix B).
/// </summary>
internal static class Units
{
    /// <summary>Litres in a US gallon.</summary>
    private const decimal Gallon = 3.785411784m;

    /// <summary>Millimetres in an inch.</summary>
    private const decimal Inch = 25.4m;

    /// <summary>Metres in a foot.</summary>
    private const decimal Foot = 0.3048m;

    /// <summary>The second; it is written as part of a duration.</summary>
    public static Unit Second { get; } = new("s", Dimension.Time, 1);

    /// <summary>The minute.</summary>
    public static Unit Minute { get; } = new("min", Dimension.Time, 60);

    /// <summary>The hour.</summary>
    public static Unit Hour { get; } = new("h", Dimension.Time, 3600);

    /// <summary>A day of 24 elapsed hours.</summary>
    public static Unit Day { get; } = new("days", Dimension.Time, 86_400);

    /// <summary>A week of seven days of 24 elapsed hours.</summary>
    public static Unit Week { get; } = new("weeks", Dimension.Time, 604_800);

    /// <summary>The per cent as a share.</summary>
    public static Unit Percent { get; } = new("%", Dimension.Share, 1);

    /// <summary>
    /// American Wire Gauge: the number counts drawing steps, so its size in mm² is not a multiple of it:
    /// π/4 · (0.127 mm · 92^((36 − n)/39))² (ASTM B258).
    /// </summary>
    public static Unit Awg { get; } = new("AWG", Dimension.WireSection, 1);

    /// <summary>Every unit, by dimension, the base unit of a dimension or its most usual one first.</summary>
    public static ImmutableArray<Unit> All { get; } =
    [
        Second, new("ms", Dimension.Time, 1, 1000), Minute, Hour, Day, Week,
        new("L/min", Dimension.Flow, 1), new("L/h", Dimension.Flow, 1, 60), new("m3/h", Dimension.Flow, 1000, 60),
        new("gpm", Dimension.Flow, Gallon), new("gph", Dimension.Flow, Gallon, 60),
        new("L", Dimension.Volume, 1), new("m3", Dimension.Volume, 1000), new("gal", Dimension.Volume, Gallon),
        new("HCF", Dimension.Volume, 100 * Foot * Foot * Foot * 1000), new("kgal", Dimension.Volume, 1000 * Gallon),
        new("mm", Dimension.Depth, 1), new("cm", Dimension.Depth, 10), new("in", Dimension.Depth, Inch),
        new("mm/m", Dimension.DepthHeld, 1), new("in/ft", Dimension.DepthHeld, Inch, Foot), new("%", Dimension.DepthHeld, 10),
        new("mm/h", Dimension.DepthRate, 1), new("mm/day", Dimension.DepthRate, 1, 24),
        new("in/h", Dimension.DepthRate, Inch), new("in/day", Dimension.DepthRate, Inch, 24),
        new("m", Dimension.Length, 1), new("mm", Dimension.Length, 1, 1000), new("cm", Dimension.Length, 1, 100),
        new("in", Dimension.Length, Inch, 1000), new("ft", Dimension.Length, Foot),
        new("m2", Dimension.Area, 1), new("ft2", Dimension.Area, Foot * Foot), new("ha", Dimension.Area, 10_000),
        new("acre", Dimension.Area, 43_560 * Foot * Foot),
        new("mm2", Dimension.WireSection, 1), Awg,
        new("A", Dimension.Current, 1), new("mA", Dimension.Current, 1, 1000),
        new("V", Dimension.Voltage, 1),
        new("ohm", Dimension.Resistance, 1),
        new("uF", Dimension.Capacitance, 1), new("mF", Dimension.Capacitance, 1000),
        new("Ah", Dimension.Charge, 1), new("mAh", Dimension.Charge, 1, 1000),
        new("W", Dimension.Power, 1), new("kW", Dimension.Power, 1000),
        new("VA", Dimension.ApparentPower, 1),
        // One pound-force on one square inch is 6.894757 kPa (NIST SP 811, table B.8).
        new("bar", Dimension.Pressure, 1), new("psi", Dimension.Pressure, 0.06894757m), new("kPa", Dimension.Pressure, 1, 100),
        new("deg", Dimension.Angle, 1),
        new("C", Dimension.Temperature, 1), new("F", Dimension.Temperature, 5, 9, Zero: 32),
        new("m/s", Dimension.Wind, 1), new("km/h", Dimension.Wind, 1, 3.6m), new("mph", Dimension.Wind, 0.44704m),
        new("h/day", Dimension.Sunshine, 1),
        Percent,
    ];

    private static readonly Dictionary<(string Symbol, Dimension Dimension), Unit> BySymbolAndDimension =
        All.ToDictionary(unit => (unit.Symbol, unit.Dimension));

    private static readonly Dictionary<string, Unit> BySymbol =
        All.DistinctBy(unit => unit.Symbol).ToDictionary(unit => unit.Symbol);

    /// <summary>The unit of a dimension that is written so, or null. <c>day</c> and <c>week</c> are <see cref="Day"/> and <see cref="Week"/>.</summary>
    public static Unit? Find(string symbol, Dimension dimension) => BySymbolAndDimension.GetValueOrDefault((Canonical(symbol), dimension));

    /// <summary>The first unit of any dimension that is written so, or null.</summary>
    public static Unit? Find(string symbol) => BySymbol.GetValueOrDefault(Canonical(symbol));

    /// <summary>The units of a dimension, the most usual first.</summary>
    public static IEnumerable<Unit> Of(Dimension dimension) => All.Where(unit => unit.Dimension == dimension);

    private static string Canonical(string symbol) => symbol switch
    {
        "day" => "days",
        "week" => "weeks",
        _ => symbol,
    };
}
