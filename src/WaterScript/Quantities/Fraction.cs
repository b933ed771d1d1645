using System.Globalization;
using System.Numerics;

namespace WaterScript.Quantities;

/// <summary>An exact number: sums of water and of money lose nothing until they are printed.</summary>
internal readonly struct Fraction : IEquatable<Fraction>, IComparable<Fraction>
{
    private const int BitsOfScale = 16;
    private readonly BigInteger _denominatorLessOne;

    /// <summary>A number in its lowest terms.</summary>
    /// <param name="numerator">Its numerator.</param>
    /// <param name="denominator">Not 0.</param>
    /// <exception cref="DivideByZeroException">The denominator is 0.</exception>
    public Fraction(BigInteger numerator, BigInteger denominator)
    {
        if (denominator.IsZero) throw new DivideByZeroException();
        var common = BigInteger.GreatestCommonDivisor(numerator, denominator) * denominator.Sign;
        Numerator = numerator / common;
        _denominatorLessOne = (denominator / common) - 1;
    }

    /// <summary>Nothing.</summary>
    public static Fraction Zero { get; }

    /// <summary>Its numerator, which has its sign.</summary>
    public BigInteger Numerator { get; }

    /// <summary>Its denominator, 1 or more.</summary>
    public BigInteger Denominator => _denominatorLessOne + 1;

    /// <summary>-1, 0 or 1.</summary>
    public int Sign => Numerator.Sign;

    /// <summary>The greatest whole number that is not above it.</summary>
    public BigInteger Floor
    {
        get
        {
            var quotient = BigInteger.DivRem(Numerator, Denominator, out var rest);
            return rest.Sign < 0 ? quotient - 1 : quotient;
        }
    }

    /// <summary>The nearest whole number; of two the one further from 0.</summary>
    public BigInteger Rounded => Sign < 0 ? -(-this).Rounded : ((this * Of(2)) + Of(1)).DividedBy(2).Floor;

    /// <summary>A whole number.</summary>
    public static Fraction Of(long number) => new(number, 1);

    /// <summary>A decimal number, exactly.</summary>
    public static Fraction Of(decimal number)
    {
        Span<int> bits = stackalloc int[4];
        decimal.GetBits(number, bits);
        var digits = ((BigInteger)(uint)bits[2] << 64) | ((BigInteger)(uint)bits[1] << 32) | (uint)bits[0];
        var scale = (bits[3] >> BitsOfScale) & 0xFF;
        return new(number < 0 ? -digits : digits, BigInteger.Pow(10, scale));
    }

    /// <summary>A quantity in the base unit of its dimension, exactly; not for one in <see cref="Units.Awg"/>.</summary>
    public static Fraction Of(Quantity quantity) => (Of(quantity.Value) - Of(quantity.Unit.Zero)) * Of(quantity.Unit);

    /// <summary>The size of a unit in the base unit of its dimension.</summary>
    public static Fraction Of(Unit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return Of(unit.Numerator) / Of(unit.Denominator);
    }

    /// <summary>The sum.</summary>
    public static Fraction operator +(Fraction left, Fraction right) =>
        new((left.Numerator * right.Denominator) + (right.Numerator * left.Denominator), left.Denominator * right.Denominator);

    /// <summary>The difference.</summary>
    public static Fraction operator -(Fraction left, Fraction right) => left + -right;

    /// <summary>The same with the other sign.</summary>
    public static Fraction operator -(Fraction number) => new(-number.Numerator, number.Denominator);

    /// <summary>The product.</summary>
    public static Fraction operator *(Fraction left, Fraction right) => new(left.Numerator * right.Numerator, left.Denominator * right.Denominator);

    /// <summary>The quotient.</summary>
    /// <exception cref="DivideByZeroException">The divisor is 0.</exception>
    public static Fraction operator /(Fraction left, Fraction right) => new(left.Numerator * right.Denominator, left.Denominator * right.Numerator);

    /// <summary>Whether one is less.</summary>
    public static bool operator <(Fraction left, Fraction right) => left.CompareTo(right) < 0;

    /// <summary>Whether one is more.</summary>
    public static bool operator >(Fraction left, Fraction right) => left.CompareTo(right) > 0;

    /// <summary>Whether one is not more.</summary>
    public static bool operator <=(Fraction left, Fraction right) => left.CompareTo(right) <= 0;

    /// <summary>Whether one is not less.</summary>
    public static bool operator >=(Fraction left, Fraction right) => left.CompareTo(right) >= 0;

    /// <summary>Whether both are the same.</summary>
    public static bool operator ==(Fraction left, Fraction right) => left.Equals(right);

    /// <summary>Whether they differ.</summary>
    public static bool operator !=(Fraction left, Fraction right) => !left.Equals(right);

    /// <summary>The lesser of two.</summary>
    public static Fraction Min(Fraction left, Fraction right) => left < right ? left : right;

    /// <summary>A part of it.</summary>
    public Fraction DividedBy(long parts) => new(Numerator, Denominator * parts);

    /// <summary>Rounded to so many digits after the point, of two the one further from 0: <c>29.770</c>.</summary>
    public string ToString(int digits)
    {
        var size = BigInteger.Pow(10, digits);
        return Text((this * new Fraction(size, 1)).Rounded, digits);
    }

    /// <summary>A whole number of so many digits after the point: 29770 with three is <c>29.770</c>.</summary>
    public static string Text(BigInteger number, int digits)
    {
        var text = BigInteger.Abs(number).ToString(CultureInfo.InvariantCulture).PadLeft(digits + 1, '0');
        return (number.Sign < 0 ? "-" : "") + (digits == 0 ? text : $"{text[..^digits]}.{text[^digits..]}");
    }

    /// <summary>Rounded to so many digits after the point, without zeros at the end; more than a decimal holds is the most that it holds.</summary>
    public decimal ToDecimal(int digits)
    {
        var size = BigInteger.Pow(10, digits);
        var number = (this * new Fraction(size, 1)).Rounded;
        while (digits > 0 && BigInteger.Abs(number) > (BigInteger)decimal.MaxValue) (number, digits) = (number / 10, digits - 1);
        if (BigInteger.Abs(number) > (BigInteger)decimal.MaxValue) return number.Sign * decimal.MaxValue;
        var value = (decimal)number;
        for (; digits > 0; digits--) value /= 10;
        return value / 1.0000000000000000000000000000m;
    }

    /// <inheritdoc/>
    public int CompareTo(Fraction other) => (Numerator * other.Denominator).CompareTo(other.Numerator * Denominator);

    /// <inheritdoc/>
    public bool Equals(Fraction other) => Numerator == other.Numerator && Denominator == other.Denominator;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is Fraction other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Numerator, Denominator);

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Numerator}/{Denominator}");
}
