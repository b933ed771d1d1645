namespace WaterScript.Documents.Reports;

/// <summary>The program that a report is from.</summary>
/// <param name="Version">Its version: <c>0.1.0</c>.</param>
/// <param name="Home">The absolute address where it is described; null where it has none, which a report then leaves out.</param>
internal sealed record ReportingProgram(string Version, string? Home);
