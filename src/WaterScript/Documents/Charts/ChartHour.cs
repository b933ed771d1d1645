namespace WaterScript.Documents.Charts;

/// <summary>The clock shows a full hour.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Hour">0 to 23.</param>
internal readonly record struct ChartHour(long At, int Hour);
