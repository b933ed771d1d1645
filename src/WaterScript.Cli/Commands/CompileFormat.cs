namespace WaterScript.Cli.Commands;

/// <summary>What <c>compile --to</c> asks for.</summary>
internal enum CompileFormat
{
    /// <summary>A timetable in YAML.</summary>
    Yaml,

    /// <summary>A timetable in JSON.</summary>
    Json,

    /// <summary>A list of a timetable as CSV.</summary>
    Csv,

    /// <summary>A calendar (RFC 5545).</summary>
    ICalendar,
}
