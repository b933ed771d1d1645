using System.Globalization;

namespace WaterScript.Quantities;

/// <summary>A number with its unit, kept as it was written: gallons stay gallons for whoever reads a message.</summary>
/// <param name="Value">The number, exact.</param>
/// <param name="Unit">Its unit.</param>
internal readonly record struct Quantity(decimal Value, Unit Unit)
{
    private const double ThinnestGaugeMillimetres = 0.127;

    /// <summary>The number, exact.</summary>
    public decimal Value { get; } = Value;

    /// <summary>Its unit.</summary>
    public Unit Unit { get; } = Unit;

    /// <summary>What it measures.</summary>
    public Dimension Dimension => Unit.Dimension;

    /// <summary>
    /// The value in the base unit of its dimension, as <see cref="Quantities.Dimension"/> names it; calculated once, because checks ask for it at
    /// every opening.
    /// </summary>
    public decimal InBase { get; } = ReferenceEquals(Unit, Units.Awg) ? GaugeSection(Value) : (Value - Unit.Zero) * Unit.Numerator / Unit.Denominator;

    /// <summary>The same quantity in another unit of its dimension; not for <see cref="Units.Awg"/>.</summary>
    public Quantity In(Unit unit) => new((InBase * unit.Denominator / unit.Numerator) + unit.Zero, unit);

    /// <summary>As a source writes it: <c>18 L/min</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value / 1.0000000000000000000000000000m} {Unit.Symbol}");

    private static decimal GaugeSection(decimal gauge)
    {
        var diameter = ThinnestGaugeMillimetres * Math.Pow(92, (36 - (double)gauge) / 39);
        return (decimal)(Math.PI / 4 * diameter * diameter);
    }
}
