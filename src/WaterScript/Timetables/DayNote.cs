using WaterScript.Text;

namespace WaterScript.Timetables;

/// <summary>Something about a date that a person should know.</summary>
internal enum DayNoteKind
{
    /// <summary>The wall clock skips the moment.</summary>
    SkippedTime,

    /// <summary>The wall clock shows the moment twice.</summary>
    DoubledTime,

    /// <summary>The sun does not rise or set.</summary>
    NoSunEvent,

    /// <summary>Another start of the schedule falls on the same moment.</summary>
    DuplicateStart,

    /// <summary>The repeats end before the first pass.</summary>
    NoPass,

    /// <summary>A pass of the date would start before the file takes effect.</summary>
    BeforeEffective,
}

/// <summary>Something about a date of a schedule that a person should know.</summary>
/// <param name="Kind">What.</param>
/// <param name="Origin">The moment or start that it is about.</param>
/// <param name="Other">The start that it falls together with, for <see cref="DayNoteKind.DuplicateStart"/>.</param>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="Instant">The moment that was taken, or that would be, in Unix seconds; 0 where there is none.</param>
internal readonly record struct DayNote(DayNoteKind Kind, Location Origin, Location? Other, int Day, long Instant);
