namespace WaterScript.Answers.Audit;

/// <summary>What a row of a log says.</summary>
internal enum LogKind
{
    /// <summary>A valve opens.</summary>
    Open,

    /// <summary>A valve closes.</summary>
    Close,

    /// <summary>Somebody opened a valve by hand.</summary>
    Hand,

    /// <summary>The device left a watering out.</summary>
    Skip,

    /// <summary>Something failed.</summary>
    Fault,

    /// <summary>The device started.</summary>
    Boot,

    /// <summary>The device was there.</summary>
    Alive,
}

/// <summary>Something that a log says.</summary>
/// <param name="Place">The row.</param>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Kind">What.</param>
/// <param name="Zone">Index among the site's zones; -1 where it is about all, or about a device of the site.</param>
/// <param name="Why">The reason, or null.</param>
/// <param name="Number">Number of the row, where the log counts its rows.</param>
/// <param name="Litres">What a meter says that this watering took, or null.</param>
/// <param name="Meter">What the meter shows, in litres, or null.</param>
/// <param name="List">The hash of the timetable in the device, or its beginning; null where it is not given.</param>
internal sealed record LogEvent(LogPlace Place, decimal At, LogKind Kind, int Zone, string? Why, long? Number, decimal? Litres, decimal? Meter, string? List)
{
    /// <summary>Stands for the zone of what is about all, or about a device of the site.</summary>
    public const int NoZone = -1;

    /// <summary>Stands for the controller of what is about all of them.</summary>
    public const int NoController = -1;

    /// <summary>Index of the controller that it is of; <see cref="NoController"/> where the row does not say.</summary>
    public int Controller { get; init; } = NoController;
}

/// <summary>A row of a log.</summary>
/// <param name="File">The file.</param>
/// <param name="Line">From 1.</param>
internal sealed record LogPlace(string File, int Line);

/// <summary>A row that says nothing that could be used.</summary>
/// <param name="Place">The row.</param>
/// <param name="Problem">Why.</param>
internal sealed record BadRow(LogPlace Place, RowProblem Problem)
{
    /// <summary>Why, without a capital or a full stop.</summary>
    public string Why => Problem.Why;
}

/// <summary>Why a row cannot be used.</summary>
/// <param name="Why">Without a capital or a full stop.</param>
/// <param name="IsHarmless">Whether nothing is missed without it, as without the closing of an output that nothing is wired to.</param>
internal sealed record RowProblem(string Why, bool IsHarmless = false)
{
    /// <summary>The output that nothing is wired to, where that is why.</summary>
    public int? Unwired { get; init; }
}
