using NodaTime;

namespace WaterScript.Documents.Writers;

/// <summary>Numbers as the outputs write them: always with the same decimals, never more than anyone can measure.</summary>
internal static class Measure
{
    private const int Decimals = 4;

    /// <summary>Dividing by it takes trailing zeros off a decimal.</summary>
    private const decimal WithoutTrailingZeros = 1.0000000000000000000000000000m;

    /// <summary>With two decimals: <c>60.00</c>.</summary>
    public static decimal? Hundredths(decimal? value) =>
        value is { } number ? Math.Round(number, 2, MidpointRounding.AwayFromZero) + 0.00m : null;

    /// <summary>With at most four decimals: <c>22.7125</c>, <c>18</c>.</summary>
    public static decimal? Rounded(decimal? value) =>
        value is { } number ? Math.Round(number, Decimals, MidpointRounding.AwayFromZero) / WithoutTrailingZeros : null;

    /// <summary>A length of time in seconds.</summary>
    public static decimal? Seconds(Duration? length) => Rounded(length?.BclCompatibleTicks / (decimal)NodaConstants.TicksPerSecond);

    /// <summary>A length of time in milliseconds.</summary>
    public static decimal? Milliseconds(Duration? length) => Rounded(length?.BclCompatibleTicks / (decimal)NodaConstants.TicksPerMillisecond);
}
