using WaterScript.Model;

namespace WaterScript.Documents.Timetables;

/// <summary>What goes into a document.</summary>
internal sealed record OutputOptions
{
    /// <summary>Only what this controller carries out; null for all.</summary>
    public Controller? Controller { get; init; }

    /// <summary>Only this list, without the description of the site and the totals; null for all. A table has the runs unless another list is named.</summary>
    public TimetableList? Only { get; init; }

    /// <summary>What it was compiled from.</summary>
    public Provenance Provenance { get; init; } = Provenance.None;
}
