namespace WaterScript.Outputs;

/// <summary>How a timetable is written.</summary>
public enum OutputFormat
{
    /// <summary>YAML 1.2 that YAML 1.1 readers read alike.</summary>
    Yaml,

    /// <summary>JSON (RFC 8259), the same tree.</summary>
    Json,

    /// <summary>The runs, one a line (RFC 4180).</summary>
    Csv,
}
