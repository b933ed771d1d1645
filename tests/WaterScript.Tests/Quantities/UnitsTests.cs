using WaterScript.Quantities;
using Xunit;

namespace WaterScript.Tests.Quantities;

/// <summary>Conversions against NIST Special Publication 811 (2008), appendix B, but for the gauge of wires.</summary>
public sealed class UnitsTests
{
    // "S": printed there as exact; the others are printed to seven digits, or follow from an exact one.
    [Theory]
    [InlineData("in", Dimension.Length, "0.0254", 0)] // S
    [InlineData("ft", Dimension.Length, "0.3048", 0)] // S
    [InlineData("in", Dimension.Depth, "25.4", 0)] // S
    [InlineData("ha", Dimension.Area, "10000", 0)] // S
    [InlineData("ft2", Dimension.Area, "0.09290304", 0)] // S
    [InlineData("acre", Dimension.Area, "4046.873", 0.02)] // of survey feet; ours is of international ones, 4 in a million less
    [InlineData("gal", Dimension.Volume, "3.785412", 0.000001)]
    [InlineData("m3", Dimension.Volume, "1000", 0)] // S
    [InlineData("gpm", Dimension.Flow, "3.785412", 0.000001)]
    [InlineData("gph", Dimension.Flow, "0.06309020", 0.0000001)]
    [InlineData("m3/h", Dimension.Flow, "16.66667", 0.00001)]
    [InlineData("L/h", Dimension.Flow, "0.01666667", 0.00000001)]
    [InlineData("in/h", Dimension.DepthRate, "25.4", 0)] // S
    [InlineData("in/day", Dimension.DepthRate, "1.058333", 0.000001)]
    [InlineData("mm/day", Dimension.DepthRate, "0.04166667", 0.00000001)]
    [InlineData("in/ft", Dimension.DepthHeld, "83.33333", 0.00001)]
    [InlineData("%", Dimension.DepthHeld, "10", 0)]
    [InlineData("mph", Dimension.Wind, "0.44704", 0)] // S
    [InlineData("km/h", Dimension.Wind, "0.2777778", 0.0000001)]
    [InlineData("h", Dimension.Time, "3600", 0)] // S
    [InlineData("days", Dimension.Time, "86400", 0)] // S
    [InlineData("weeks", Dimension.Time, "604800", 0)]
    [InlineData("ms", Dimension.Time, "0.001", 0)]
    [InlineData("mF", Dimension.Capacitance, "1000", 0)]
    [InlineData("mA", Dimension.Current, "0.001", 0)]
    public void OneOfAUnitIsSoManyBaseUnits(string symbol, object dimension, string expected, double tolerance)
    {
        var unit = Units.Find(symbol, (Dimension)dimension);
        Assert.NotNull(unit);
        var inBase = new Quantity(1, unit).InBase;
        Assert.InRange(inBase, decimal.Parse(expected, System.Globalization.CultureInfo.InvariantCulture) - (decimal)tolerance,
            decimal.Parse(expected, System.Globalization.CultureInfo.InvariantCulture) + (decimal)tolerance);
    }

    [Theory]
    [InlineData(32, 0)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    public void DegreesFahrenheitAreReadFromTheirZero(int fahrenheit, int celsius) =>
        Assert.Equal(celsius, new Quantity(fahrenheit, Units.Find("F", Dimension.Temperature)!).InBase);

    // ASTM B258, from memory of its table: nominal diameters 0.1285, 0.0808, 0.0641, 0.0508 and 0.0403 in.
    [Theory]
    [InlineData(8, 8.37)]
    [InlineData(12, 3.31)]
    [InlineData(14, 2.08)]
    [InlineData(16, 1.31)]
    [InlineData(18, 0.823)]
    public void WireGaugesHaveTheirSections(int gauge, double squareMillimetres) =>
        Assert.Equal(squareMillimetres, (double)new Quantity(gauge, Units.Awg).InBase, squareMillimetres * 0.005);

    [Fact]
    public void ThereAreNoTwoUnitsOfOneSymbolInADimension() =>
        Assert.Equal(Units.All.Length, Units.All.Select(unit => (unit.Symbol, unit.Dimension)).Distinct().Count());

    [Fact]
    public void EveryDimensionHasAUnitThatIsItsBase()
    {
        foreach (var dimension in Enum.GetValues<Dimension>())
            Assert.Contains(Units.Of(dimension), unit => unit is { Numerator: 1, Denominator: 1, Zero: 0 });
    }

    [Fact]
    public void EveryUnitComesBackFromAnotherOfItsDimension()
    {
        foreach (var unit in Units.All.Where(unit => unit != Units.Awg))
        {
            foreach (var other in Units.Of(unit.Dimension).Where(other => other != Units.Awg))
                Assert.Equal(7m, new Quantity(7, unit).In(other).In(unit).Value, 15);
        }
    }

    [Fact]
    public void UnitsAreCaseSensitive()
    {
        Assert.Null(Units.Find("l/min", Dimension.Flow));
        Assert.Null(Units.Find("MA", Dimension.Current));
    }

    [Fact]
    public void OneDayIsWrittenWithoutAnS() => Assert.Same(Units.Day, Units.Find("day", Dimension.Time));

    [Fact]
    public void AQuantityIsPrintedAsItIsWritten()
    {
        Assert.Equal("18 L/min", new Quantity(18.00m, Units.Find("L/min")!).ToString());
        Assert.Equal("0.5 in", new Quantity(0.50m, Units.Find("in", Dimension.Depth)!).ToString());
    }
}
