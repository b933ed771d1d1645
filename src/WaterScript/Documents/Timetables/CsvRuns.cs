namespace WaterScript.Documents.Timetables;

/// <summary>The runs as lines of CSV.</summary>
internal sealed class CsvRuns() : CsvTable(Columns)
{
    /// <summary>Their columns.</summary>
    public static readonly string[] Columns =
        ["run", "from", "to", "zone", "output", "controller", "schedule", "day", "start", "pass", "pass_start", "step", "seconds", "depth_mm", "volume_l"];

    /// <summary>The line of a run; until the next one is asked for.</summary>
    public ReadOnlySpan<byte> Line(RunFields fields)
    {
        BeginLine();
        Field(fields.Run.Number);
        Field(fields.From);
        Field(fields.To);
        Field(fields.Zone.Name);
        Field(fields.Zone.Output > 0 ? fields.Zone.Output : null);
        Field(fields.Zone.Controller?.Name ?? "");
        Field(fields.Schedule.Name);
        Field(fields.Day);
        Field(fields.Run.StartNumber);
        Field(fields.Run.Pass);
        Field(fields.PassStart);
        Field(fields.Step);
        Field(fields.Run.Seconds);
        Field(fields.Millimetres);
        Field(fields.Litres);
        return EndLine();
    }
}
