using WaterScript.Documents.Timetables;

namespace WaterScript;

/// <summary>One of the lists of a timetable.</summary>
public enum TimetableRows
{
    /// <summary>What each zone gets, and why.</summary>
    Runs = (int)TimetableList.Runs,

    /// <summary>When each output is on.</summary>
    Openings = (int)TimetableList.Openings,

    /// <summary>What a controller does, one after the other: the list for a device.</summary>
    Switchings = (int)TimetableList.Switchings,
}
