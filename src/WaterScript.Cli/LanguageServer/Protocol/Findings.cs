namespace WaterScript.Cli.LanguageServer.Protocol;

/// <summary>A finding.</summary>
internal sealed record Diagnostic
{
    public required Range Range { get; init; }

    public required int Severity { get; init; }

    public required string Code { get; init; }

    public CodeDescription? CodeDescription { get; init; }

    public string Source { get; } = "waterscript";

    public required string Message { get; init; }

    public IReadOnlyList<int>? Tags { get; init; }

    public IReadOnlyList<RelatedPlace>? RelatedInformation { get; init; }

    public FindingData? Data { get; init; }
}

internal sealed record CodeDescription(string Href);

internal sealed record RelatedPlace(DocumentRange Location, string Message);

/// <summary>What a client hands back with a finding.</summary>
internal sealed record FindingData(string Id, string Site, int? Version = null);

internal sealed record PublishParams(string Uri, int? Version, IReadOnlyList<Diagnostic> Diagnostics);

internal sealed record FullReport(IReadOnlyList<Diagnostic> Items)
{
    public string Kind { get; } = "full";
}

internal sealed record WorkspaceReport(IReadOnlyList<WorkspaceDocumentReport> Items);

internal sealed record WorkspaceDocumentReport(string Uri, int? Version, IReadOnlyList<Diagnostic> Items)
{
    public string Kind { get; } = "full";
}

internal sealed record CodeActionParams(DocumentId TextDocument, Range Range, CodeActionContext Context);

internal sealed record CodeActionContext(IReadOnlyList<string>? Only = null);

internal sealed record CodeAction
{
    public required string Title { get; init; }

    public required string Kind { get; init; }

    public bool? IsPreferred { get; init; }

    public IReadOnlyList<Diagnostic>? Diagnostics { get; init; }

    public WorkspaceEdit? Edit { get; init; }

    public CodeActionData? Data { get; init; }
}

/// <summary>What an action was offered for: the client hands it back when somebody has chosen it.</summary>
internal sealed record CodeActionData(string Uri, int Version, Range Range);
