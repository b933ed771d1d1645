using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Quantities;

namespace WaterScript.Language;

/// <summary>The sections in which wire is made, as far as their resistance is known: a number between them is a slip.</summary>
internal static class WireSizes
{
    /// <summary>Nominal sections in mm² (IEC 60228), the thinnest first.</summary>
    public static ImmutableArray<decimal> Squares { get; } = [0.5m, 0.75m, 1, 1.5m, 2.5m, 4, 6, 10, 16, 25, 35, 50];

    /// <summary>Even numbers of the American Wire Gauge, the thinnest first.</summary>
    public static ImmutableArray<decimal> Gauges { get; } = [22, 20, 18, 16, 14, 12, 10, 8, 6, 4];

    /// <summary>Whether wire is made with a section.</summary>
    public static bool Has(Quantity section) => Of(section.Unit).Contains(section.Value);

    /// <summary>The sizes next to one that is not made: <c>1.5 mm2 or 2.5 mm2</c>; at an end of the list the last.</summary>
    public static string NextTo(Quantity section)
    {
        var sizes = Of(section.Unit).Order().ToArray();
        var nearest = new[] { sizes.LastOrDefault(size => size < section.Value), sizes.FirstOrDefault(size => size > section.Value) }.Where(size => size > 0);
        return string.Join(" or ", nearest.Select(size => string.Create(CultureInfo.InvariantCulture, $"{size} {section.Unit.Symbol}")));
    }

    private static ImmutableArray<decimal> Of(Unit unit) => unit == Units.Awg ? Gauges : Squares;
}
