namespace WaterScript.Calendars;

/// <summary>What has to be said about a moment of a date.</summary>
internal enum MomentNote
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>The wall clock never shows it on that date: it was read with the offset before the change (RFC 5545, 3.3.5).</summary>
    Skipped,

    /// <summary>The wall clock shows it twice on that date: it is the first of the two (RFC 5545, 3.3.5).</summary>
    Doubled,

    /// <summary>The sun does not rise, or set, on that date: there is no such moment.</summary>
    NoSunEvent,
}

/// <summary>The instant of a moment of a date.</summary>
/// <param name="Instant">In Unix seconds; 0 and without meaning when there is no such moment.</param>
/// <param name="Note">What has to be said about it.</param>
internal readonly record struct MomentReading(long Instant, MomentNote Note)
{
    /// <summary>Whether there is such a moment.</summary>
    public bool Exists => Note != MomentNote.NoSunEvent;

    /// <summary>The instant, or null when there is no such moment.</summary>
    public long? InstantOrNull => Exists ? Instant : null;

    /// <summary>A date without the event.</summary>
    public static MomentReading NoSunEvent { get; } = new(0, MomentNote.NoSunEvent);
}
