namespace WaterScript.Documents.Charts;

/// <summary>A finding happens.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Finding">Which.</param>
internal sealed record ChartMark(long At, ChartFinding Finding)
{
    /// <summary>Index of the zone that it is about; -1 where it is about none that is watered then.</summary>
    public int Zone { get; init; } = -1;
}
