using WaterScript.Diagnostics;

namespace WaterScript.Documents.Charts;

/// <summary>A finding that happens on the days of a chart.</summary>
/// <param name="Number">By which marks name it, from 1.</param>
/// <param name="Finding">The finding.</param>
internal sealed record ChartFinding(int Number, Finding Finding);
