using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Wording;

/// <summary>How depths of water are said: in inches where the file measures ground or weather so, else in millimetres.</summary>
internal sealed class DepthWords
{
    private static readonly HashSet<string> Customary = ["in", "in/h", "in/day", "ft2", "acre"];
    private readonly bool _isInches;

    public DepthWords(Site site)
    {
        _isInches = QuantitiesOf(site).Any(quantity => Customary.Contains(quantity?.Unit.Symbol ?? ""));
        Unit = Units.Find(_isInches ? "in" : "mm", Dimension.Depth)!;
    }

    /// <summary>The unit.</summary>
    public Unit Unit { get; }

    /// <summary><c>12.5</c>: a depth in mm as a number of the unit.</summary>
    /// <param name="millimetres">The depth.</param>
    /// <param name="digits">Digits after the point in mm; an inch has one more, two at least.</param>
    public string Number(decimal millimetres, int digits = 1) =>
        Phrases.Number(millimetres * Unit.Denominator / Unit.Numerator, _isInches ? Math.Max(2, digits + 1) : digits);

    /// <summary><c>12.5 mm</c></summary>
    public string Say(decimal millimetres, int digits = 1) => $"{Number(millimetres, digits)} {Unit}";

    private static IEnumerable<Quantity?> QuantitiesOf(Site site) => site.Zones.SelectMany(zone => new Quantity?[] { zone.Area, zone.Rate })
        .Concat(site.Climate?.Months.SelectMany(month => new[] { month?.Rain, month?.Et }) ?? []);
}
