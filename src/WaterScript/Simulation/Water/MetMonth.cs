namespace WaterScript.Simulation.Water;

/// <summary>A month of the year, as a mean of those of the horizon.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="Given">Watering that plants can use, in mm.</param>
/// <param name="Need">What has to be watered, in mm.</param>
/// <param name="StressDays">Days on which plants lack water.</param>
/// <param name="Percolation">What runs below the roots, in mm.</param>
/// <param name="Days">Days of it that lie in a row of waterings; given and needed are those of them.</param>
/// <param name="Length">Days that it has.</param>
internal sealed record MetMonth(int Month, decimal Given, decimal Need, decimal StressDays, decimal Percolation, decimal Days, decimal Length)
{
    /// <summary>Quotients such as a flow by an area, or a third of a month, may be off in the last of their 28 digits; a depth is not known to these.</summary>
    private const int Decimals = 12;

    /// <summary>The mean of some months.</summary>
    public static MetMonth Of(int month, ZoneMonth[] months) => new(
        month,
        months.Average(each => each.SeasonGiven),
        months.Average(each => each.SeasonNeed),
        months.Average(each => (decimal)each.StressDays),
        months.Average(each => each.Percolation),
        (decimal)months.Average(each => each.SeasonDays),
        (decimal)months.Average(each => each.Length));

    /// <summary>Whether less than a share of the need is given, and so much less that it counts.</summary>
    /// <param name="share">The share, 1 for all.</param>
    /// <param name="difference">What counts, in mm.</param>
    public bool IsUnder(decimal share, decimal difference) => Sign(Given - (share * Need)) < 0 && Sign(Need - Given - difference) >= 0;

    /// <summary>Whether more than a share of the need is given, and so much more that it counts.</summary>
    /// <inheritdoc cref="IsUnder"/>
    public bool IsOver(decimal share, decimal difference) => Sign(Given - (share * Need)) > 0 && Sign(Given - Need - difference) >= 0;

    private static int Sign(decimal difference) => Math.Sign(Math.Round(difference, Decimals));
}
