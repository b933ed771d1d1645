namespace WaterScript.Documents.Charts;

/// <summary>Something about a moment.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Text"><c>sunset 20:41</c></param>
internal sealed record ChartNote(long At, string Text);
