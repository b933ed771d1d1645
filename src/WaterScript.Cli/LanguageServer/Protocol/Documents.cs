using System.Text.Json;

namespace WaterScript.Cli.LanguageServer.Protocol;

internal sealed record DidOpenParams(OpenedDocument TextDocument);

internal sealed record OpenedDocument(string Uri, string Text, int Version = 0);

internal sealed record DidChangeParams(VersionedDocumentId TextDocument, IReadOnlyList<ContentChange> ContentChanges);

/// <summary>New text for a range of a document; for all of it where there is none.</summary>
internal sealed record ContentChange(string Text, Range? Range = null);

internal sealed record FoldersChangedParams(FoldersChange Event);

internal sealed record FoldersChange(IReadOnlyList<WorkspaceFolder> Added, IReadOnlyList<WorkspaceFolder> Removed);

internal sealed record FilesChangedParams(IReadOnlyList<FileChange> Changes);

internal sealed record FileChange(string Uri, int Type = 0);

internal sealed record SettingsParams(JsonElement Settings);

/// <summary>What a user may set. What is not there stays as it is.</summary>
internal sealed record ServerSettings
{
    public bool? Accepted { get; init; }

    public CheckSettings? Check { get; init; }

    public HintSettings? Hints { get; init; }

    public bool? Lens { get; init; }

    public RenameSettings? Rename { get; init; }
}

internal sealed record CheckSettings(bool? Workspace = null);

internal sealed record HintSettings(bool? Ends = null, bool? Amounts = null);

internal sealed record RenameSettings(string? Formerly = null);

/// <summary>Settings under the name of the language, as editors hand them over.</summary>
internal sealed record NamedSettings(ServerSettings? Waterscript = null);
