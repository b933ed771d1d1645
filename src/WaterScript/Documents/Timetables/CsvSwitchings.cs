namespace WaterScript.Documents.Timetables;

/// <summary>The switchings as lines of CSV: the list that a device carries out.</summary>
internal sealed class CsvSwitchings() : CsvTable(Columns)
{
    /// <summary>Their columns.</summary>
    public static readonly string[] Columns =
        ["t", "after_ms", "controller", "output", "do", "polarity", "pulse_ms", "max_on_s", "opening"];

    /// <summary>The line of a switching; until the next one is asked for.</summary>
    public ReadOnlySpan<byte> Line(SwitchingFields fields)
    {
        BeginLine();
        Field(fields.Switching.Second);
        Field(fields.Switching.AfterMilliseconds);
        Field(fields.Controller.Name);
        Field(fields.Switching.Output);
        Field(fields.Do);
        Field(fields.Polarity ?? "");
        Field(fields.PulseMilliseconds);
        Field(fields.MaxOnSeconds);
        Field(fields.Switching.Opening);
        return EndLine();
    }
}
