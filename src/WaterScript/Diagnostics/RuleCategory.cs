namespace WaterScript.Diagnostics;

/// <summary>A part of what can go wrong, in the order in which the documentation lists them.</summary>
internal enum RuleCategory
{
    /// <summary>What a file says, before anything of it happens.</summary>
    Reading,

    /// <summary>When it waters, and what comes too close together.</summary>
    DaysAndTimes,

    /// <summary>What authorities allow.</summary>
    Restrictions,

    /// <summary>Flows, tanks, pumps and pipes.</summary>
    Water,

    /// <summary>Currents, capacitors and wires.</summary>
    Power,

    /// <summary>What plants need and what soil takes in.</summary>
    PlantsAndSoil,
}
