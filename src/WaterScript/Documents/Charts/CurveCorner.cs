namespace WaterScript.Documents.Charts;

/// <summary>A point of a curve.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Value">L/min, L, A or VA.</param>
internal readonly record struct CurveCorner(long At, decimal Value);
