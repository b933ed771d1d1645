namespace WaterScript.Calendars;

/// <summary>What a wall clock shows.</summary>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="SecondOfDay">Seconds after midnight on the clock, 0 to 86,399.</param>
/// <param name="Offset">Seconds that the clock is ahead of UTC; negative behind it.</param>
internal readonly record struct WallTime(int Day, int SecondOfDay, int Offset);
