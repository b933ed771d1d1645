using System.Globalization;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What is known of soils and plants that need no block.</summary>
internal static class BuiltInWords
{
    /// <summary><c>takes in 8.9 mm/h, holds 155 mm/m</c></summary>
    public static string Of(Soil soil) =>
        $"takes in {Said(soil.Intake, "mm/h", Dimension.DepthRate, 1)}, holds {Said(soil.Holds, "mm/m", Dimension.DepthHeld, 0)}";

    /// <summary><c>coefficient 0.8 to 0.9, roots 30 cm</c></summary>
    public static string Of(Plants plants)
    {
        var coefficients = plants.Coefficients.OfType<decimal>().ToList();
        var range = coefficients.Count == 0 ? "" : coefficients.Min() == coefficients.Max()
            ? string.Create(CultureInfo.InvariantCulture, $"coefficient {coefficients[0]:0.##}")
            : string.Create(CultureInfo.InvariantCulture, $"coefficient {coefficients.Min():0.##} to {coefficients.Max():0.##}");
        return string.Join(", ", new[] { range, plants.Roots is { } roots ? $"roots {roots}" : "" }.Where(text => text.Length > 0));
    }

    private static string Said(Quantity? quantity, string unit, Dimension dimension, int digits) =>
        quantity is { } known ? Phrases.Amount(known.InBase, Units.Find(unit, dimension)!, digits) : "an unknown amount";
}
