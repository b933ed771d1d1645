namespace WaterScript.Cli.LanguageServer.Protocol;

/// <summary>A place in a document: lines from 0, UTF-16 code units before it on its line.</summary>
internal readonly record struct Position(int Line, int Character);

/// <summary>From a place to another, which is not included.</summary>
internal readonly record struct Range(Position Start, Position End);

/// <summary>A range in a document.</summary>
internal sealed record DocumentRange(string Uri, Range Range);

/// <summary>A document.</summary>
internal record DocumentId(string Uri);

/// <summary>A document in one of its versions; null for a file that is not open.</summary>
internal sealed record VersionedDocumentId(string Uri, int? Version = null);

/// <summary>A request about a document.</summary>
internal record DocumentParams(DocumentId TextDocument);

/// <summary>A request about a place in a document.</summary>
internal sealed record PlaceParams(DocumentId TextDocument, Position Position);

/// <summary>A request about a range of a document.</summary>
internal sealed record RangeParams(DocumentId TextDocument, Range Range);

/// <summary>A change of a document.</summary>
internal sealed record TextChange(Range Range, string NewText)
{
    /// <summary>Under which somebody is asked about it first; null where nobody is.</summary>
    public string? AnnotationId { get; init; }
}

/// <summary>What somebody is asked about changes.</summary>
internal sealed record ChangeAnnotation(string Label, bool NeedsConfirmation);

/// <summary>Changes of one document.</summary>
internal sealed record DocumentEdit(VersionedDocumentId TextDocument, IReadOnlyList<TextChange> Edits);

/// <summary>Changes of several documents: <see cref="Changes"/> for clients that know no versions.</summary>
internal sealed record WorkspaceEdit(IReadOnlyList<DocumentEdit>? DocumentChanges, IReadOnlyDictionary<string, IReadOnlyList<TextChange>>? Changes)
{
    public IReadOnlyDictionary<string, ChangeAnnotation>? ChangeAnnotations { get; init; }
}

/// <summary>Text with the way in which it is written.</summary>
internal sealed record MarkupContent(string Kind, string Value)
{
    /// <summary>Text in Markdown.</summary>
    public static MarkupContent Markdown(string text) => new("markdown", text);
}
