namespace WaterScript.Documents.Charts;

/// <summary>A finding happens.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Finding">Which.</param>
internal sealed record ChartMark(long At, ChartFinding Finding);
