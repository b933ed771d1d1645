namespace WaterScript.Calendars;

/// <summary>Days in a row, both ends included, in days since 1970-01-01; none when the last comes before the first.</summary>
internal readonly record struct DaySpan(int First, int Last);
