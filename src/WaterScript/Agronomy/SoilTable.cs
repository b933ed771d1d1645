using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Agronomy;

/// <summary>
/// Soils that need no block, by texture. Intake and what may stand at a slope of up to 3, 6, 12 and more per cent: Irrigation Association,
/// Landscape Irrigation Scheduling and Water Management, 2005 (from memory). Water held between field capacity and wilting point: the middle of the
/// range in FAO Irrigation and Drainage Paper 56, table 19 (from memory). Where one of the tables has no such texture, the next heavier one that it has
/// stands in: clay loam for silt loam, silt and silty clay loam in the first; silty clay loam for clay loam in the second.
/// </summary>
internal static class SoilTable
{
    private static readonly decimal[] Clay = [0.20m, 0.15m, 0.10m, 0.10m];
    private static readonly decimal[] SiltyClay = [0.23m, 0.19m, 0.16m, 0.13m];
    private static readonly decimal[] ClayLoam = [0.26m, 0.22m, 0.18m, 0.15m];
    private static readonly decimal[] Loam = [0.30m, 0.25m, 0.21m, 0.17m];
    private static readonly decimal[] SandyLoam = [0.33m, 0.29m, 0.24m, 0.20m];
    private static readonly decimal[] LoamySand = [0.36m, 0.30m, 0.26m, 0.22m];
    private static readonly decimal[] Sand = [0.40m, 0.35m, 0.30m, 0.25m];

    /// <summary>All of them, from the lightest to the heaviest.</summary>
    public static ImmutableArray<Soil> All { get; } =
    [
        Row("sand", 0.60m, Sand, 50, 110),
        Row("loamy-sand", 0.50m, LoamySand, 60, 120),
        Row("sandy-loam", 0.40m, SandyLoam, 110, 150),
        Row("loam", 0.35m, Loam, 130, 180),
        Row("silt-loam", 0.20m, ClayLoam, 130, 190),
        Row("silt", 0.20m, ClayLoam, 160, 200),
        Row("clay-loam", 0.20m, ClayLoam, 130, 180),
        Row("silty-clay-loam", 0.20m, ClayLoam, 130, 180),
        Row("silty-clay", 0.15m, SiltyClay, 130, 190),
        Row("clay", 0.10m, Clay, 120, 200),
    ];

    /// <summary>A soil of a file over the built-in one of that name: what the file does not say is taken from there.</summary>
    public static Soil Completed(Soil own)
    {
        ArgumentNullException.ThrowIfNull(own);
        return All.FirstOrDefault(soil => soil.Name == own.Name) is not { } builtIn ? own : own with
        {
            Intake = own.Intake ?? builtIn.Intake,
            Holds = own.Holds ?? builtIn.Holds,
            Ponds = own.Ponds.IsEmpty ? builtIn.Ponds : own.Ponds,
        };
    }

    /// <summary>A soil as the tables give it.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="intake">Basic intake in in/h.</param>
    /// <param name="ponds">What may stand in in, by slope.</param>
    /// <param name="least">Water held in mm/m, from.</param>
    /// <param name="most">Water held in mm/m, to.</param>
    private static Soil Row(string name, decimal intake, decimal[] ponds, decimal least, decimal most) => new(
        name,
        Label: null,
        Origin: null,
        new Quantity(intake, Units.Find("in/h", Dimension.DepthRate)!),
        new Quantity((least + most) / 2, Units.Find("mm/m", Dimension.DepthHeld)!),
        [.. ponds.Select(inches => new Quantity(inches, Units.Find("in", Dimension.Depth)!))]);
}
