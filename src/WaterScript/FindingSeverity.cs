using WaterScript.Diagnostics;

namespace WaterScript;

/// <summary>How much a finding weighs. Only an error keeps a timetable from being made.</summary>
public enum FindingSeverity
{
    /// <summary>Worth a look; the watering is as written.</summary>
    Advice = (int)Severity.Advice,

    /// <summary>Likely not what was meant.</summary>
    Warning = (int)Severity.Warning,

    /// <summary>Cannot be read, or cannot be carried out as written.</summary>
    Error = (int)Severity.Error,
}
