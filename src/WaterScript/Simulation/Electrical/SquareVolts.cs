using System.Numerics;

namespace WaterScript.Simulation.Electrical;

/// <summary>
/// The square of a voltage, which is what the energy of a capacitor goes with: a recharge adds to it, and a pulse leaves a share of it. Kept to 160
/// binary digits after the point, rounded down, so that a comparison needs no tolerance: what a pulse leaves of numbers in a file is a sum of powers of e with
/// rational exponents below 0, and such a sum is never rational (Lindemann and Weierstrass), so never the square of a minimum voltage.
/// </summary>
/// <param name="Steps">How many times 2⁻¹⁶⁰ V².</param>
internal readonly record struct SquareVolts(BigInteger Steps)
{
    private const int Digits = 160;

    /// <summary>Digits beyond those that are kept, so that what is rounded on the way does not reach them.</summary>
    private const int Spare = 32;

    /// <summary>Exponents below this leave nothing within the digits that are kept.</summary>
    private const int Nothing = 256;

    /// <summary>The terms of the series shrink by this power of 2 each, or faster.</summary>
    private const int Shrinking = 8;

    private static readonly double Unit = Math.Pow(2, -Digits);

    /// <summary>The voltage.</summary>
    public double Volts => Math.Sqrt((double)Steps * Unit);

    /// <summary>What part it is of the square of 1 V, or of one voltage to another.</summary>
    public Ratio Exact => new(Steps, BigInteger.One << Digits);

    /// <summary>The square of a voltage.</summary>
    public static SquareVolts Of(decimal volts) => Of(Ratio.Of(volts) * Ratio.Of(volts));

    /// <summary>So many V², rounded down.</summary>
    public static SquareVolts Of(Ratio square) => new((square.Over << Digits) / square.Under);

    /// <summary>What is left of 1 V² after a discharge: exp(−x).</summary>
    /// <param name="exponent">x, above 0.</param>
    public static SquareVolts Left(Ratio exponent)
    {
        if (exponent.Over >= Nothing * exponent.Under) return default;
        var halvings = (int)(exponent.Over / exponent.Under).GetBitLength() + Shrinking;
        var digits = Digits + Spare + halvings;
        var part = (exponent.Over << digits) / (exponent.Under << halvings);
        var sum = BigInteger.Zero;
        var term = BigInteger.One << digits;
        for (var number = 1; !term.IsZero; number++)
        {
            sum += number % 2 == 1 ? term : -term;
            term = ((term * part) >> digits) / number;
        }

        for (; halvings > 0; halvings--) sum = (sum * sum) >> digits;
        return new SquareVolts(sum >> (digits - Digits));
    }

    /// <summary>A share of it.</summary>
    public SquareVolts Times(SquareVolts share) => new((Steps * share.Steps) >> Digits);

    /// <summary>More of it, but no more than when full.</summary>
    public SquareVolts Charged(SquareVolts more, SquareVolts full) => new(BigInteger.Min(Steps + more.Steps, full.Steps));
}
