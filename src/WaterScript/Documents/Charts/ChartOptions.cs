using WaterScript.Text;

namespace WaterScript.Documents.Charts;

/// <summary>How a chart is written.</summary>
/// <param name="SourceLink">What bars lead to: <c>https://…/{path}#L{line}</c>; null for the lines that the page itself shows.</param>
/// <param name="LineOf">How an editor that shows the chart beside the text finds the line of a step; null for the number of the line.</param>
internal sealed record ChartOptions(string? SourceLink = null, Func<Location, string>? LineOf = null);
