namespace WaterScript.Documents.Charts;

/// <summary>A stretch of time.</summary>
/// <param name="From">First second, in Unix seconds.</param>
/// <param name="Until">The second after the last.</param>
internal readonly record struct ChartBand(long From, long Until);
