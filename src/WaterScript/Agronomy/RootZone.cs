using WaterScript.Model;

namespace WaterScript.Agronomy;

/// <summary>What the ground holds for roots to take: FAO Irrigation and Drainage Paper 56, Rome 1998, chapter 8. All depths are in mm.</summary>
/// <param name="Total">Total available water, TAW (eq. 82); above 0.</param>
/// <param name="AllowedShare">Share of it that may be used before plants suffer, p, from 0 to 1.</param>
internal readonly record struct RootZone(decimal Total, decimal AllowedShare)
{
    private const decimal MillimetresPerMetre = 1000;

    /// <summary>Readily available water, RAW = p · TAW (eq. 83).</summary>
    public decimal Readily => AllowedShare * Total;

    /// <summary>That of a zone; null where its soil does not say what it holds, or its plants not how deep they root and what they may use.</summary>
    public static RootZone? Of(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone is { Soil.Holds: { } holds, Plants: { Roots: { } roots, DepletionPercent: { } depletion } }
            ? new RootZone(holds.InBase * roots.InBase, depletion / 100)
            : null;
    }

    /// <summary>The root zone of a soil by its water contents: TAW = 1000 (θFC − θWP) Zr (eq. 82).</summary>
    /// <param name="fieldCapacity">Water content at field capacity in m³/m³.</param>
    /// <param name="wiltingPoint">Water content at the wilting point in m³/m³.</param>
    /// <param name="metres">Depth of the roots in m.</param>
    /// <param name="allowedShare">p, from 0 to 1.</param>
    public static RootZone Of(decimal fieldCapacity, decimal wiltingPoint, decimal metres, decimal allowedShare) =>
        new(MillimetresPerMetre * (fieldCapacity - wiltingPoint) * metres, allowedShare);

    /// <summary>Stress coefficient, Ks (eq. 84): 1 while less than RAW is missing, then falling to 0 at TAW.</summary>
    /// <param name="depletion">What is missing to field capacity, Dr.</param>
    public decimal Stress(decimal depletion) => depletion <= Readily ? 1 : Math.Max(0, (Total - depletion) / ((1 - AllowedShare) * Total));

    /// <summary>
    /// Whole days from one watering to the next in which no more than RAW is used, rounded down; 0 where one day uses more, null where nothing is
    /// used.
    /// </summary>
    /// <param name="cropDemand">Crop evapotranspiration, ETc, in mm/day.</param>
    public int? IntervalDays(decimal cropDemand)
    {
        if (cropDemand <= 0) return null;
        if (cropDemand * LongestInterval <= Readily) return LongestInterval;
        return (int)Math.Floor(Math.Round(Readily / cropDemand, Decimals));
    }

    /// <summary>
    /// The balance of a day (eq. 85): what is missing at its end is what was missing before, less rain and watering, plus what plants use and what
    /// runs below the roots. Water comes at the beginning of the day; percolation is what is too much at its end (eq. 88).
    /// </summary>
    /// <param name="depletion">What was missing at the end of the day before, from 0 to TAW.</param>
    /// <param name="water">Rain and watering that reach the roots.</param>
    /// <param name="cropDemand">ETc.</param>
    public BalanceDay Next(decimal depletion, decimal water, decimal cropDemand)
    {
        var missing = Math.Max(0, depletion - water);
        var used = Math.Min(Stress(missing) * cropDemand, Total - depletion + water);
        var percolation = Math.Max(0, water - used - depletion);
        return new BalanceDay(Math.Clamp(depletion - water + used + percolation, 0, Total), used, percolation, Math.Round(missing - Readily, Decimals) > 0);
    }

    /// <summary>A year: longer than any interval that somebody plans.</summary>
    private const int LongestInterval = 366;

    /// <summary>Quotients such as inches in a foot may be off in the last of their 28 digits; a depth is not known to these.</summary>
    private const int Decimals = 12;
}

/// <summary>A day of the balance.</summary>
/// <param name="Depletion">What is missing to field capacity at its end, in mm.</param>
/// <param name="Used">What plants use, ETc adjusted for stress, in mm.</param>
/// <param name="Percolation">What runs below the roots, in mm.</param>
/// <param name="IsStressed">Whether plants lack water.</param>
internal readonly record struct BalanceDay(decimal Depletion, decimal Used, decimal Percolation, bool IsStressed);
