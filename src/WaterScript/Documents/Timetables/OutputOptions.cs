using WaterScript.Model;

namespace WaterScript.Documents.Timetables;

/// <summary>What goes into a document.</summary>
/// <param name="TimeZoneData">Version of the time-zone data that clock times were read with, such as <c>2026a</c>.</param>
internal sealed record OutputOptions(string TimeZoneData)
{
    /// <summary>Only what this controller carries out; null for all.</summary>
    public Controller? Controller { get; init; }

    /// <summary>Only this list, without the description of the site and the totals; null for all. A table has the runs unless another list is named.</summary>
    public TimetableList? Only { get; init; }
}
