using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>A zone and how long it is watered.</summary>
internal readonly record struct ZoneTime(Zone Zone, long Seconds);
