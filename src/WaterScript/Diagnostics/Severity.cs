namespace WaterScript.Diagnostics;

/// <summary>How much a finding weighs. Only an error keeps a timetable from being written.</summary>
internal enum Severity
{
    /// <summary>Worth a look; the watering is as written.</summary>
    Advice,

    /// <summary>Likely not what was meant.</summary>
    Warning,

    /// <summary>Cannot be read, or cannot be carried out as written.</summary>
    Error,
}
