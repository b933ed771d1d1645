namespace WaterScript.Documents.Timetables;

/// <summary>The openings as lines of CSV.</summary>
internal sealed class CsvOpenings() : CsvTable(Columns)
{
    /// <summary>Their columns.</summary>
    public static readonly string[] Columns =
        ["opening", "from", "to", "controller", "output", "kind", "name", "seconds", "runs"];

    /// <summary>The line of an opening; until the next one is asked for.</summary>
    public ReadOnlySpan<byte> Line(OpeningFields fields)
    {
        BeginLine();
        Field(fields.Opening.Number);
        Field(fields.From);
        Field(fields.To);
        Field(fields.Controller.Name);
        Field(fields.Output);
        Field(fields.Kind);
        Field(fields.Name);
        Field(fields.Opening.Seconds);
        Field(fields.Opening.Runs);
        return EndLine();
    }
}
