namespace WaterScript.Documents.Timetables;

/// <summary>Lines of a list from what a document has of them, to be hashed as those that were written.</summary>
internal sealed class CsvCopy(string[] columns) : CsvTable(columns)
{
    /// <summary>Adds a line.</summary>
    public void Line(params ReadOnlySpan<string> fields)
    {
        BeginLine();
        foreach (var field in fields) Field(field);
        EndLine();
    }
}
