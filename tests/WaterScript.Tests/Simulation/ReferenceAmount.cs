using System.Numerics;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Tests.Simulation;

/// <summary>How long a watering takes, in fractions of whole numbers, where nothing is lost before the one rounding.</summary>
internal static class ReferenceAmount
{
    /// <summary>Decimals that the numbers of a test may have.</summary>
    private static readonly BigInteger Tens = BigInteger.Pow(10, 10);

    /// <summary>Whole seconds of a zone at a share of the written amount, and at its trim.</summary>
    public static long Seconds(WaterStep water, Zone zone, decimal percent)
    {
        var (over, under) = Of(water, zone);
        return Rounded([.. over, percent, zone.TrimPercent], [.. under, 100, 100]);
    }

    /// <summary>Whole seconds of the written amount, which neither scale nor trim touches.</summary>
    public static long Seconds(WaterStep water, Zone zone)
    {
        var (over, under) = Of(water, zone);
        return Rounded(over, under);
    }

    /// <summary>Whether the written amount, without scale and trim, takes as long as a time or longer.</summary>
    public static bool IsAtLeast(WaterStep water, Zone zone, long seconds)
    {
        var (over, under) = Of(water, zone);
        return Product(over, under.Length) >= Product([.. under, seconds], over.Length - 1);
    }

    /// <summary>The written seconds as a fraction.</summary>
    private static (decimal[] Over, decimal[] Under) Of(WaterStep water, Zone zone)
    {
        if (water.For is { } time) return ([(decimal)time.TotalSeconds], [1]);
        var amount = water.With!.Value.InBase;
        var flow = zone.Flow?.InBase ?? 0;
        if (water.With!.Value.Dimension == Dimension.Volume) return ([amount, 60], [flow]);
        decimal[] share = zone.EfficiencyPercent is { } efficiency ? [efficiency.Value]
            : zone.UniformityPercent is { } uniformity ? [40 + (0.6m * uniformity)]
            : [100];
        return zone.Rate is { } rate ? ([amount, 3600, 100], [rate.InBase, .. share]) : ([amount, 3600, zone.Area!.Value.InBase, 100], [60, flow, .. share]);
    }

    /// <summary>A quotient of products, rounded half up.</summary>
    public static long Rounded(decimal[] over, decimal[] under)
    {
        var (numerator, denominator) = (Product(over, under.Length), Product(under, over.Length));
        return (long)BigInteger.Divide((2 * numerator) + denominator, 2 * denominator);
    }

    /// <summary>A product as a whole number, brought to the decimals of the product that it is divided by.</summary>
    private static BigInteger Product(decimal[] factors, int others)
    {
        var product = factors.Aggregate(BigInteger.One, (all, factor) => all * Whole(factor));
        return product * BigInteger.Pow(Tens, others);
    }

    private static BigInteger Whole(decimal factor)
    {
        var whole = factor * (decimal)Tens;
        return whole == decimal.Truncate(whole) ? new BigInteger(whole) : throw new NotSupportedException($"too many decimals: {factor}");
    }
}
