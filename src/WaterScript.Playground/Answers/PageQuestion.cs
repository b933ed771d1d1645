namespace WaterScript.Playground.Answers;

/// <summary>What a page asks. Offsets are UTF-16.</summary>
internal sealed record PageQuestion
{
    /// <summary>
    /// <c>open</c>, and of what is open <c>read</c>, <c>check</c>, <c>chart</c>, <c>timetable</c>, <c>document</c>, <c>hover</c>, <c>complete</c>,
    /// <c>actions</c>, <c>fix</c> or <c>format</c>.
    /// </summary>
    public required string Method { get; init; }

    /// <summary>The root file; with <c>open</c>.</summary>
    public string? Root { get; init; }

    /// <summary>The texts of all files by their paths; with <c>open</c>.</summary>
    public IReadOnlyDictionary<string, string>? Files { get; init; }

    /// <summary>The file that is looked at.</summary>
    public string? File { get; init; }

    /// <summary>The place, or the start of what is selected.</summary>
    public int From { get; init; }

    /// <summary>The end of what is selected.</summary>
    public int To { get; init; }

    /// <summary>The first date; null for that of the next watering.</summary>
    public string? First { get; init; }

    /// <summary>So many days from there.</summary>
    public int Days { get; init; } = 1;

    /// <summary>What to write: <c>icalendar</c>, <c>yaml</c>, <c>csv</c>, or what <c>check --report json</c> writes: <c>report</c>.</summary>
    public string? Format { get; init; }
}
