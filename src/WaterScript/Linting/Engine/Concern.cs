namespace WaterScript.Linting.Engine;

/// <summary>What a check is about, as people look for it; the first is the most dangerous to leave unchecked.</summary>
internal enum Concern
{
    /// <summary>Whether a supply gives what is drawn.</summary>
    Flow,

    /// <summary>Whether a tank runs dry.</summary>
    Tank,

    /// <summary>Whether a controller has the current that its valves need.</summary>
    Power,

    /// <summary>Whether a pump starts more often than its motor bears.</summary>
    PumpStarts,

    /// <summary>Whether enough voltage reaches a valve.</summary>
    Wires,

    /// <summary>Whether a restriction is kept.</summary>
    Restrictions,

    /// <summary>Whether water runs off.</summary>
    Runoff,

    /// <summary>Whether plants get what they need.</summary>
    WaterNeed,

    /// <summary>Whether water runs below the roots.</summary>
    Roots,

    /// <summary>Whether one controller opens while the clock of another still waters.</summary>
    HandOvers,

    /// <summary>Whether water is lost to sun and wind.</summary>
    Daylight,
}
