namespace WaterScript.Simulation.Restrictions;

/// <summary>How a restriction is broken.</summary>
internal enum BreachKind
{
    /// <summary>On a day that is not allowed.</summary>
    ForbiddenDay,

    /// <summary>Outside the hours.</summary>
    OutsideHours,

    /// <summary>By a pass that is longer than the hours, whenever it starts.</summary>
    LongerThanHours,

    /// <summary>On more days a week.</summary>
    WateringDaysLimit,

    /// <summary>For longer in a day.</summary>
    DailyTimeLimit,

    /// <summary>By a greater depth in a day.</summary>
    DailyDepthLimit,

    /// <summary>In more zones at a time.</summary>
    TooManyZones,

    /// <summary>By a greater volume in a day, or in something longer.</summary>
    VolumeLimit,
}
