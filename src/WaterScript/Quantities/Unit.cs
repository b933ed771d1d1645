namespace WaterScript.Quantities;

/// <summary>A unit of one dimension. A value in base units is <c>(value − Zero) · Numerator / Denominator</c>, but for <see cref="Units.Awg"/>.</summary>
/// <param name="Symbol">As written in a source, case-sensitive.</param>
/// <param name="Dimension">What it measures.</param>
/// <param name="Numerator">Size in base units, over <paramref name="Denominator"/>; exact by definition of the unit.</param>
/// <param name="Denominator">See <paramref name="Numerator"/>.</param>
/// <param name="Zero">The value that is zero in the base unit; 32 for degrees Fahrenheit.</param>
internal sealed record Unit(string Symbol, Dimension Dimension, decimal Numerator, decimal Denominator = 1, decimal Zero = 0)
{
    /// <inheritdoc/>
    public override string ToString() => Symbol;
}
