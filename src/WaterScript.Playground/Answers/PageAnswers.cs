namespace WaterScript.Playground.Answers;

/// <summary>What a page is answered, or a part of that.</summary>
internal interface IPageAnswer
{
    /// <summary>Writes its properties.</summary>
    void Write(AnswerWriter writer);
}

/// <summary>A place in a file.</summary>
internal sealed record PlaceAnswer(string File, int From, int To, string Words = "") : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("file", File);
        writer.Number("from", From);
        writer.Number("to", To);
        writer.Text("words", Words);
    }
}

/// <summary>A replacement.</summary>
internal sealed record EditAnswer(string File, int From, int To, string Text) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("file", File);
        writer.Number("from", From);
        writer.Number("to", To);
        writer.Text("text", Text);
    }
}

/// <summary>What can be done at a place.</summary>
internal sealed record ActionAnswer(string Title, string Kind, bool IsPreferred, IReadOnlyList<EditAnswer> Edits) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("title", Title);
        writer.Text("kind", Kind);
        writer.Truth("isPreferred", IsPreferred);
        writer.Parts("edits", Edits);
    }
}

/// <summary>A finding beside the source.</summary>
internal sealed record FindingAnswer(string Severity, string Rule, PlaceAnswer Place, string Message) : IPageAnswer
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

    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("severity", Severity);
        writer.Text("rule", Rule);
        writer.Part("place", Place);
        writer.Text("message", Message);
        writer.Text("help", Help);
        writer.Parts("related", Related);
        writer.Truth("isPale", IsPale);
        writer.Truth("isAccepted", IsAccepted);
        writer.Parts("actions", Actions);
    }
}

/// <summary>What reading gives at once: for each file its colours, four numbers each: offset, length, kind, modifiers.</summary>
internal sealed record ReadAnswer(IReadOnlyDictionary<string, int[]> Colours, IReadOnlyList<FindingAnswer> Findings) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.NumbersByName("colours", Colours);
        writer.Parts("findings", Findings);
    }
}

/// <summary>What a check gives.</summary>
/// <param name="Name">What people call the site.</param>
/// <param name="Worst">The gravest severity; null where nothing was found.</param>
/// <param name="Findings">In the order of the report, then what is accepted.</param>
/// <param name="Verdict">Its lines.</param>
/// <param name="SafeFixes">How many of them have a fix that leaves the watering as it is meant; <c>fix</c> makes all of these.</param>
internal sealed record CheckAnswer(string Name, string? Worst, IReadOnlyList<FindingAnswer> Findings, IReadOnlyList<string> Verdict, int SafeFixes)
    : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("name", Name);
        writer.Text("worst", Worst);
        writer.Parts("findings", Findings);
        writer.Texts("verdict", Verdict);
        writer.Number("safeFixes", SafeFixes);
    }
}

/// <summary>A picture of some days.</summary>
internal sealed record ChartAnswer(string First, int Days, string Svg) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("first", First);
        writer.Number("days", Days);
        writer.Text("svg", Svg);
    }
}

/// <summary>Rows of a timetable.</summary>
internal sealed record TimetableAnswer(string First, int Days, IReadOnlyList<RowAnswer> Rows, bool HasMore) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("first", First);
        writer.Number("days", Days);
        writer.Parts("rows", Rows);
        writer.Truth("hasMore", HasMore);
    }
}

/// <summary>A run.</summary>
internal sealed record RowAnswer(string Date, string Times, string Zone, string Length, string Water, string Schedule) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("date", Date);
        writer.Text("times", Times);
        writer.Text("zone", Zone);
        writer.Text("length", Length);
        writer.Text("water", Water);
        writer.Text("schedule", Schedule);
    }
}

/// <summary>A document to keep.</summary>
internal sealed record DocumentAnswer(string Name, string Type, string Text) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("name", Name);
        writer.Text("type", Type);
        writer.Text("text", Text);
    }
}

/// <summary>What is shown where somebody points: Markdown, a line each.</summary>
internal sealed record HoverAnswer(int From, int To, IReadOnlyList<string> Lines) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Number("from", From);
        writer.Number("to", To);
        writer.Texts("lines", Lines);
    }
}

/// <summary>What may come next.</summary>
internal sealed record CompletionAnswer(int From, int To, IReadOnlyList<OfferAnswer> Items) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Number("from", From);
        writer.Number("to", To);
        writer.Parts("items", Items);
    }
}

/// <summary>Something that may come next.</summary>
internal sealed record OfferAnswer(string Label, string Detail, string Kind, string? Snippet, string AlsoCalled) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("label", Label);
        writer.Text("detail", Detail);
        writer.Text("kind", Kind);
        writer.Text("snippet", Snippet);
        writer.Text("alsoCalled", AlsoCalled);
    }
}

/// <summary>What can be done.</summary>
internal sealed record ActionsAnswer(IReadOnlyList<ActionAnswer> Actions) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Parts("actions", Actions);
    }
}

/// <summary>Changes.</summary>
internal sealed record EditsAnswer(IReadOnlyList<EditAnswer> Edits) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Parts("edits", Edits);
    }
}

/// <summary>Nothing to say; or why not, as a sentence.</summary>
internal sealed record NoAnswer(string? Problem) : IPageAnswer
{
    /// <inheritdoc/>
    public void Write(AnswerWriter writer)
    {
        writer.Text("problem", Problem);
    }
}
