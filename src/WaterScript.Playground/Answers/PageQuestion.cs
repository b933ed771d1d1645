using System.Text.Json.Serialization;

namespace WaterScript.Playground.Answers;

/// <summary>What a page asks. Offsets are UTF-16.</summary>
internal sealed record PageQuestion
{
    /// <summary>
    /// <c>read</c>, <c>check</c>, <c>chart</c>, <c>timetable</c>, <c>document</c>, <c>hover</c>, <c>complete</c>, <c>actions</c>, <c>fix</c>
    /// or <c>format</c>.
    /// </summary>
    public required string Method { get; init; }

    /// <summary>The root file; with <c>read</c>.</summary>
    public string? Root { get; init; }

    /// <summary>The texts of all files by their paths; with <c>read</c>.</summary>
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

/// <summary>A place in a file.</summary>
internal sealed record PlaceAnswer(string File, int From, int To, string Words = "");

/// <summary>A replacement.</summary>
internal sealed record EditAnswer(string File, int From, int To, string Text);

/// <summary>What can be done at a place.</summary>
internal sealed record ActionAnswer(string Title, string Kind, bool IsPreferred, IReadOnlyList<EditAnswer> Edits);

/// <summary>A finding beside the source.</summary>
internal sealed record FindingAnswer(string Severity, string Rule, PlaceAnswer Place, string Message)
{
    /// <summary>What to do about it; may be empty.</summary>
    public string Help { get; init; } = "";

    /// <summary>Further places that explain it.</summary>
    public IReadOnlyList<PlaceAnswer> Related { get; init; } = [];

    /// <summary>Whether it is about what has no effect.</summary>
    public bool IsPale { get; init; }

    /// <summary>Whether a line of the site accepts it.</summary>
    public bool IsAccepted { get; init; }

    /// <summary>Changes that correct or accept it.</summary>
    public IReadOnlyList<ActionAnswer> Actions { get; init; } = [];
}

/// <summary>What reading gives at once: for each file its colours, four numbers each: offset, length, kind, modifiers.</summary>
internal sealed record ReadAnswer(IReadOnlyDictionary<string, int[]> Colours, IReadOnlyList<FindingAnswer> Findings);

/// <summary>What a check gives.</summary>
/// <param name="Name">What people call the site.</param>
/// <param name="Worst">The gravest severity; null where nothing was found.</param>
/// <param name="Findings">In the order of the report, then what is accepted.</param>
/// <param name="Verdict">Its lines.</param>
/// <param name="SafeFixes">How many of them have a fix that leaves the watering as it is meant; <c>fix</c> makes all of these.</param>
internal sealed record CheckAnswer(string Name, string? Worst, IReadOnlyList<FindingAnswer> Findings, IReadOnlyList<string> Verdict, int SafeFixes);

/// <summary>A picture of some days.</summary>
internal sealed record ChartAnswer(string First, int Days, string Svg);

/// <summary>Rows of a timetable.</summary>
internal sealed record TimetableAnswer(string First, int Days, IReadOnlyList<RowAnswer> Rows, bool HasMore);

/// <summary>A run.</summary>
internal sealed record RowAnswer(string Date, string Times, string Zone, string Length, string Water, string Schedule);

/// <summary>A document to keep.</summary>
internal sealed record DocumentAnswer(string Name, string Type, string Text);

/// <summary>What is shown where somebody points: Markdown, a line each.</summary>
internal sealed record HoverAnswer(int From, int To, IReadOnlyList<string> Lines);

/// <summary>What may come next.</summary>
internal sealed record CompletionAnswer(int From, int To, IReadOnlyList<OfferAnswer> Items);

/// <summary>Something that may come next.</summary>
internal sealed record OfferAnswer(string Label, string Detail, string Kind, string? Snippet, string AlsoCalled);

/// <summary>What can be done.</summary>
internal sealed record ActionsAnswer(IReadOnlyList<ActionAnswer> Actions);

/// <summary>Changes.</summary>
internal sealed record EditsAnswer(IReadOnlyList<EditAnswer> Edits);

/// <summary>Nothing to say; or why not, as a sentence.</summary>
internal sealed record NoAnswer(string? Problem);

/// <summary>How questions and answers are written.</summary>
[JsonSerializable(typeof(PageQuestion))]
[JsonSerializable(typeof(ReadAnswer))]
[JsonSerializable(typeof(CheckAnswer))]
[JsonSerializable(typeof(ChartAnswer))]
[JsonSerializable(typeof(TimetableAnswer))]
[JsonSerializable(typeof(DocumentAnswer))]
[JsonSerializable(typeof(HoverAnswer))]
[JsonSerializable(typeof(CompletionAnswer))]
[JsonSerializable(typeof(ActionsAnswer))]
[JsonSerializable(typeof(EditsAnswer))]
[JsonSerializable(typeof(NoAnswer))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
internal sealed partial class PageContext : JsonSerializerContext;
