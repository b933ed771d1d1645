using System.Numerics;
using WaterScript.Quantities;
using Xunit;

namespace WaterScript.Tests.Quantities;

/// <summary>Exact numbers, by the laws of arithmetic and by hand.</summary>
public sealed class FractionTests
{
    [Fact]
    public void A_third_three_times_is_one() =>
        Assert.Equal(Fraction.Of(1), new Fraction(1, 3) + new Fraction(1, 3) + new Fraction(1, 3));

    [Fact]
    public void Lowest_terms_have_the_sign_above() => Assert.Equal("-2/3", new Fraction(4, -6).ToString());

    [Fact]
    public void What_was_never_set_is_nothing() => Assert.Equal(Fraction.Zero, (new Fraction[1])[0] + default(Fraction));

    // By hand.
    [Theory]
    [InlineData(5, 2, "3", "2.50")]
    [InlineData(-5, 2, "-3", "-2.50")]
    [InlineData(1, 3, "0", "0.33")]
    [InlineData(-1, 200, "0", "-0.01")]
    [InlineData(1, 200, "0", "0.01")]
    [InlineData(2, 3, "1", "0.67")]
    public void Halves_go_away_from_nothing(int numerator, int denominator, string whole, string hundredths)
    {
        var number = new Fraction(numerator, denominator);
        Assert.Equal((whole, hundredths), (number.Rounded.ToString(System.Globalization.CultureInfo.InvariantCulture), number.ToString(2)));
    }

    [Theory]
    [InlineData(-7, 2, -4)]
    [InlineData(7, 2, 3)]
    [InlineData(-4, 2, -2)]
    public void A_floor_lies_below(int numerator, int denominator, int floor) =>
        Assert.Equal(new BigInteger(floor), new Fraction(numerator, denominator).Floor);

    /// <summary>A US gallon is 231 cubic inches of 25.4 mm a side (NIST SP 811, appendix B).</summary>
    [Fact]
    public void Units_are_exact() =>
        Assert.Equal(Fraction.Of(231) * Fraction.Of(0.254m) * Fraction.Of(0.254m) * Fraction.Of(0.254m), Fraction.Of(Units.Find("gal", Dimension.Volume)!));

    [Fact]
    public void Six_emitters_of_four_litres_an_hour_are_four_tenths() =>
        Assert.Equal(Fraction.Of(0.4m), Fraction.Of(new Quantity(4, Units.Find("L/h", Dimension.Flow)!)) * Fraction.Of(6));

    [Fact]
    public void Decimals_go_there_and_back()
    {
        foreach (var number in (decimal[])[0, 1, -1.25m, 0.000001m, 123456789012345.678m, -0.3333m]) Assert.Equal(number, Fraction.Of(number).ToDecimal(9));
        Assert.Equal(decimal.MaxValue, (Fraction.Of(decimal.MaxValue) * Fraction.Of(10)).ToDecimal(6));
    }

    [Fact]
    public void They_are_in_order()
    {
        var random = new Random(5);
        for (var i = 0; i < 1_000; i++)
        {
            var (a, b, c, d) = (random.Next(-99, 99), random.Next(1, 99), random.Next(-99, 99), random.Next(1, 99));
            Assert.Equal(((long)a * d).CompareTo((long)c * b), Math.Sign(new Fraction(a, b).CompareTo(new Fraction(c, d))));
        }
    }
}
