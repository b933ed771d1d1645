using WaterScript.Model;

namespace WaterScript.Outputs;

/// <summary>What goes into a document.</summary>
/// <param name="TimeZoneData">Version of the time-zone data that clock times were read with, such as <c>2026a</c>.</param>
public sealed record OutputOptions(string TimeZoneData)
{
    /// <summary>Only the runs of zones on this controller; null for all.</summary>
    public Controller? Controller { get; init; }

    /// <summary>Whether the description of the site and the totals are left out.</summary>
    public bool RunsOnly { get; init; }
}
