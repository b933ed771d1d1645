namespace WaterScript.Documents.Timetables;

/// <summary>A list of a timetable.</summary>
internal enum TimetableList
{
    /// <summary>What each zone gets, and why.</summary>
    Runs,

    /// <summary>When each output is on.</summary>
    Openings,

    /// <summary>What a device does, one after the other.</summary>
    Switchings,
}
