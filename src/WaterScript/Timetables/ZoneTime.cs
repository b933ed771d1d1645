using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>A zone, how long it is watered, and the step that says so.</summary>
internal readonly record struct ZoneTime(Zone Zone, long Seconds, WaterStep Step);
