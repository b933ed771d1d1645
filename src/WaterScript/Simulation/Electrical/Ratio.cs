using System.Numerics;

namespace WaterScript.Simulation.Electrical;

/// <summary>A fraction of whole numbers, exact and as large as need be.</summary>
/// <param name="Over">Above the line; 0 or more.</param>
/// <param name="Under">Below the line; above 0.</param>
internal readonly record struct Ratio(BigInteger Over, BigInteger Under)
{
    private const int BitsOfPart = 32;

    /// <summary>A number of a file, with all its decimals.</summary>
    /// <param name="value">0 or more.</param>
    public static Ratio Of(decimal value)
    {
        Span<int> bits = stackalloc int[4];
        decimal.GetBits(value, bits);
        var whole = ((((BigInteger)(uint)bits[2] << BitsOfPart) | (uint)bits[1]) << BitsOfPart) | (uint)bits[0];
        return new Ratio(whole, BigInteger.Pow(10, value.Scale));
    }

    public static Ratio operator +(Ratio left, Ratio right) => new((left.Over * right.Under) + (right.Over * left.Under), left.Under * right.Under);

    public static Ratio operator *(Ratio left, Ratio right) => new(left.Over * right.Over, left.Under * right.Under);

    public static Ratio operator /(Ratio left, Ratio right) => new(left.Over * right.Under, left.Under * right.Over);
}
