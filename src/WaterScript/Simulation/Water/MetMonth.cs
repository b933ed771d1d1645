namespace WaterScript.Simulation.Water;

/// <summary>A month of the year, as a mean of those of the horizon.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="Given">Watering that plants can use, in mm.</param>
/// <param name="Need">What has to be watered, in mm.</param>
/// <param name="StressDays">Days on which plants lack water.</param>
/// <param name="Percolation">What runs below the roots, in mm.</param>
internal sealed record MetMonth(int Month, double Given, double Need, double StressDays, double Percolation)
{
    /// <summary>The mean of some months.</summary>
    public static MetMonth Of(int month, ZoneMonth[] months) => new(
        month,
        months.Average(each => each.SeasonGiven),
        months.Average(each => each.SeasonNeed),
        months.Average(each => (double)each.StressDays),
        months.Average(each => each.Percolation));
}
