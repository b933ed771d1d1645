namespace WaterScript.Quantities;

/// <summary>How people call what is measured.</summary>
internal static class Dimensions
{
    /// <summary>With its article: <c>a flow</c>.</summary>
    public static string Article(this Dimension dimension) => dimension switch
    {
        Dimension.Time => "a time",
        Dimension.Flow => "a flow",
        Dimension.Volume => "a volume",
        Dimension.Depth => "a depth of water",
        Dimension.DepthHeld => "a depth of water held in soil",
        Dimension.DepthRate => "a rate of depth",
        Dimension.Length => "a length",
        Dimension.Area => "an area",
        Dimension.WireSection => "the section of a wire",
        Dimension.Current => "an electric current",
        Dimension.Voltage => "a voltage",
        Dimension.Resistance => "an electric resistance",
        Dimension.Capacitance => "a capacitance",
        Dimension.Charge => "an electric charge",
        Dimension.Power => "a power",
        Dimension.ApparentPower => "an apparent power",
        Dimension.Pressure => "a pressure",
        Dimension.Angle => "an angle",
        Dimension.Temperature => "a temperature",
        Dimension.Wind => "a wind speed",
        Dimension.Sunshine => "hours of sunshine a day",
        Dimension.Share => "a share in per cent",
        _ => throw new ArgumentOutOfRangeException(nameof(dimension)),
    };

    /// <summary>Its units in words: <c>L/min, L/h, m3/h, gpm or gph</c>.</summary>
    public static string UnitList(this Dimension dimension)
    {
        var symbols = Units.Of(dimension).Select(unit => unit.Symbol).ToArray();
        return symbols.Length == 1 ? symbols[0] : $"{string.Join(", ", symbols[..^1])} or {symbols[^1]}";
    }
}
