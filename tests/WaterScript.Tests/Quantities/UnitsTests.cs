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
    [InlineData("HCF", Dimension.Volume, "2831.685", 0.001)]
    [InlineData("kgal", Dimension.Volume, "3785.412", 0.001)]
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
    [InlineData("mAh", Dimension.Charge, "0.001", 0)]
    [InlineData("kW", Dimension.Power, "1000", 0)] // a prefix of the SI
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

    // ASTM B258: π/4 · (0.127 mm · 92^((36 − n)/39))², worked out to 30 digits with mpmath. Its table, from memory, has 0.823 mm² for 18 and 8.37 for 8.
    [Theory]
    [InlineData(4, 21.1506394254)]
    [InlineData(6, 13.301767891)]
    [InlineData(8, 8.36556406008)]
    [InlineData(10, 5.26115495451)]
    [InlineData(12, 3.30877287611)]
    [InlineData(14, 2.0809077171)]
    [InlineData(16, 1.30869572776)]
    [InlineData(18, 0.823046833731)]
    [InlineData(20, 0.517619241928)]
    [InlineData(22, 0.325533941245)]
    public void WireGaugesHaveTheirSections(int gauge, double squareMillimetres) =>
        Assert.Equal(squareMillimetres, (double)new Quantity(gauge, Units.Awg).InBase, 9);

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
