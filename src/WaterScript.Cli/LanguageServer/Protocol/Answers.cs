using System.Text.Json.Serialization;

namespace WaterScript.Cli.LanguageServer.Protocol;

internal sealed record CompletionList(bool IsIncomplete, IReadOnlyList<CompletionItem> Items);

internal sealed record CompletionItem
{
    public required string Label { get; init; }

    public required int Kind { get; init; }

    public string? Detail { get; init; }

    public MarkupContent? Documentation { get; init; }

    public string? SortText { get; init; }

    public string? FilterText { get; init; }

    public int? InsertTextFormat { get; init; }

    public TextChange? TextEdit { get; init; }

    public CompletionData? Data { get; init; }
}

/// <summary>What an item is about: the client hands it back when somebody looks at it.</summary>
internal sealed record CompletionData(string Uri, string About);

internal sealed record HoverAnswer(MarkupContent Contents, Range Range);

internal sealed record SignatureAnswer(IReadOnlyList<SignatureLine> Signatures, int ActiveSignature, int ActiveParameter);

internal sealed record SignatureLine(string Label, IReadOnlyList<SignaturePart> Parameters);

/// <summary>A part of a signature, by its first character and the one after its last.</summary>
internal sealed record SignaturePart(IReadOnlyList<int> Label);

internal sealed record ReferenceParams(DocumentId TextDocument, Position Position, ReferenceContext Context);

internal sealed record ReferenceContext(bool IncludeDeclaration = true);

internal sealed record Highlight(Range Range, int Kind);

internal sealed record RenameParams(DocumentId TextDocument, Position Position, string NewName);

internal sealed record PrepareAnswer(Range Range, string Placeholder);

internal sealed record DocumentSymbol(
    string Name, string? Detail, int Kind, Range Range, Range SelectionRange, IReadOnlyList<DocumentSymbol> Children);

internal sealed record QueryParams(string Query);

internal sealed record WorkspaceSymbol(string Name, int Kind, DocumentRange Location, string ContainerName);

internal sealed record DocumentLink(Range Range, string Target, string Tooltip);

internal sealed record FoldingRange(int StartLine, int EndLine, string? Kind);

internal sealed record SelectionParams(DocumentId TextDocument, IReadOnlyList<Position> Positions);

internal sealed record SelectionRange(Range Range, SelectionRange? Parent);

internal sealed record TokensDeltaParams(DocumentId TextDocument, string PreviousResultId);

/// <summary>Tokens, or what became of those that were handed over before.</summary>
internal sealed record TokensAnswer(string? ResultId, IReadOnlyList<int>? Data, IReadOnlyList<TokensEdit>? Edits);

internal sealed record TokensEdit(int Start, int DeleteCount, IReadOnlyList<int> Data);

internal sealed record InlayHint(Position Position, string Label, bool PaddingLeft, MarkupContent? Tooltip);

internal sealed record CodeLens(Range Range, LensCommand Command);

internal sealed record LensCommand(string Title, string Command, IReadOnlyList<string> Arguments);

/// <summary>How it is read and written.</summary>
[JsonSerializable(typeof(System.Text.Json.JsonElement))]
[JsonSerializable(typeof(InitializeParams))]
[JsonSerializable(typeof(InitializeResult))]
[JsonSerializable(typeof(RegistrationParams))]
[JsonSerializable(typeof(LogMessageParams))]
[JsonSerializable(typeof(ProgressCreateParams))]
[JsonSerializable(typeof(ProgressParams))]
[JsonSerializable(typeof(DidOpenParams))]
[JsonSerializable(typeof(DidChangeParams))]
[JsonSerializable(typeof(DocumentParams))]
[JsonSerializable(typeof(PlaceParams))]
[JsonSerializable(typeof(RangeParams))]
[JsonSerializable(typeof(FoldersChangedParams))]
[JsonSerializable(typeof(FilesChangedParams))]
[JsonSerializable(typeof(SettingsParams))]
[JsonSerializable(typeof(NamedSettings))]
[JsonSerializable(typeof(PublishParams))]
[JsonSerializable(typeof(FullReport))]
[JsonSerializable(typeof(WorkspaceReport))]
[JsonSerializable(typeof(CodeActionParams))]
[JsonSerializable(typeof(CodeAction[]))]
[JsonSerializable(typeof(CodeAction))]
[JsonSerializable(typeof(TextChange[]))]
[JsonSerializable(typeof(CompletionList))]
[JsonSerializable(typeof(CompletionItem))]
[JsonSerializable(typeof(HoverAnswer))]
[JsonSerializable(typeof(SignatureAnswer))]
[JsonSerializable(typeof(ReferenceParams))]
[JsonSerializable(typeof(DocumentRange[]))]
[JsonSerializable(typeof(Highlight[]))]
[JsonSerializable(typeof(RenameParams))]
[JsonSerializable(typeof(PrepareAnswer))]
[JsonSerializable(typeof(WorkspaceEdit))]
[JsonSerializable(typeof(DocumentSymbol[]))]
[JsonSerializable(typeof(QueryParams))]
[JsonSerializable(typeof(WorkspaceSymbol[]))]
[JsonSerializable(typeof(DocumentLink[]))]
[JsonSerializable(typeof(FoldingRange[]))]
[JsonSerializable(typeof(SelectionParams))]
[JsonSerializable(typeof(SelectionRange[]))]
[JsonSerializable(typeof(TokensDeltaParams))]
[JsonSerializable(typeof(TokensAnswer))]
[JsonSerializable(typeof(InlayHint[]))]
[JsonSerializable(typeof(CodeLens[]))]
[JsonSerializable(typeof(NightParams))]
[JsonSerializable(typeof(WhyParams))]
[JsonSerializable(typeof(RuleParams))]
[JsonSerializable(typeof(NightAnswer))]
[JsonSerializable(typeof(PictureAnswer))]
[JsonSerializable(typeof(NightChoiceAnswer[]))]
[JsonSerializable(typeof(NamesAnswer))]
[JsonSerializable(typeof(StatusAnswer))]
[JsonSerializable(typeof(TextAnswer))]
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
internal sealed partial class ProtocolContext : JsonSerializerContext;
