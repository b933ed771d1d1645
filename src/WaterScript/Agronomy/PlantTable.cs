using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Agronomy;

/// <summary>
/// Plants that need no block: FAO Irrigation and Drainage Paper 56. The crop coefficient is that of full growth (table 12, mid-season) in all
/// months, since nobody says when they were sown. Roots are the lesser depth and the share of water that may be used is that of table 22, which
/// notes that the lesser depth is the one to water by. Onion in both tables, and roots of squash, berries and citrus, are from memory.
/// </summary>
internal static class PlantTable
{
    /// <summary>What a zone without plants says in place of a name.</summary>
    public const string None = "none";

    /// <summary>All of them.</summary>
    public static ImmutableArray<Plants> All { get; } =
    [
        Row("turf-cool", 0.95m, 0.5m, 40),
        Row("turf-warm", 0.85m, 0.5m, 50),
        Row("tomato", 1.15m, 0.7m, 40),
        Row("lettuce", 1.00m, 0.3m, 30),
        Row("pepper", 1.05m, 0.5m, 30),
        Row("squash", 0.95m, 0.6m, 50),
        Row("strawberry", 0.85m, 0.2m, 20),
        Row("potato", 1.15m, 0.4m, 35),
        Row("onion", 1.05m, 0.3m, 30),
        Row("berries", 1.05m, 0.6m, 50),
        Row("conifers", 1.00m, 1.0m, 70),
        Row("citrus", 0.65m, 1.2m, 50),
    ];

    /// <summary>Plants of a file over the built-in ones of that name: what the file does not say is taken from there.</summary>
    public static Plants Completed(Plants own)
    {
        ArgumentNullException.ThrowIfNull(own);
        return All.FirstOrDefault(plants => plants.Name == own.Name) is not { } builtIn ? own : own with
        {
            Coefficients = own.Coefficients.IsEmpty ? builtIn.Coefficients : own.Coefficients,
            Roots = own.Roots ?? builtIn.Roots,
            DepletionPercent = own.DepletionPercent ?? builtIn.DepletionPercent,
        };
    }

    private static Plants Row(string name, decimal coefficient, decimal metres, decimal depletion) => new(
        name, Label: null, Origin: null, [.. Enumerable.Repeat<decimal?>(coefficient, 12)],
            new Quantity(metres, Units.Find("m", Dimension.Length)!), depletion);
}
