namespace WaterScript.Documents.Timetables;

/// <summary>How a timetable is written.</summary>
internal enum OutputFormat
{
    /// <summary>YAML 1.2 that YAML 1.1 readers read alike.</summary>
    Yaml,

    /// <summary>JSON (RFC 8259), the same tree.</summary>
    Json,

    /// <summary>One list, an entry a line (RFC 4180): the runs, or the one that is asked for.</summary>
    Csv,
}
