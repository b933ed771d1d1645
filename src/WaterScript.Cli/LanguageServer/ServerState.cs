using System.Text.Json;
using WaterScript.Cli.LanguageServer.Protocol;

namespace WaterScript.Cli.LanguageServer;

/// <summary>What the client can do and the user has set, as far as it makes a difference. It does not change; a change gives another.</summary>
internal sealed record ServerState
{
    /// <summary>Whether edits may name the versions that they are made for.</summary>
    public bool KnowsVersions { get; init; }

    /// <summary>Whether the client asks for the edits of an action only when somebody has chosen it.</summary>
    public bool ResolvesActions { get; init; }

    /// <summary>Whether an edit may wait for somebody's yes.</summary>
    public bool ConfirmsEdits { get; init; }

    /// <summary>Whether a renamed schedule keeps its former name: <c>always</c>, <c>never</c> or <c>ask</c>.</summary>
    public string KeepsFormerName { get; init; } = "always";

    /// <summary>Whether the client asks for findings, so that they are not handed over unasked.</summary>
    public bool AsksForFindings { get; init; }

    /// <summary>Whether completion may hold places to fill.</summary>
    public bool KnowsSnippets { get; init; }

    /// <summary>Whether it shows what takes long.</summary>
    public bool ShowsProgress { get; init; }

    /// <summary>Whether it asks for hints again when it is asked to.</summary>
    public bool RenewsHints { get; init; }

    /// <summary>Whether it asks for lenses again when it is asked to.</summary>
    public bool RenewsLenses { get; init; }

    /// <summary>Whether it takes in that a file has been checked.</summary>
    public bool KnowsChecked { get; init; }

    /// <summary>Whether it can be asked to watch files.</summary>
    public bool WatchesFiles { get; init; }

    /// <summary>Whether what is accepted is shown too.</summary>
    public bool ShowsAccepted { get; init; }

    /// <summary>Whether all sites of the folders are checked, not those alone of which something is open.</summary>
    public bool ChecksWorkspace { get; init; }

    /// <summary>Whether ends are shown beside starts.</summary>
    public bool ShowsEnds { get; init; } = true;

    /// <summary>Whether amounts are shown beside steps.</summary>
    public bool ShowsAmounts { get; init; } = true;

    /// <summary>Whether lenses are shown above schedules.</summary>
    public bool ShowsLenses { get; init; } = true;

    /// <summary>That of a client.</summary>
    public static ServerState Of(InitializeParams client) => new ServerState
    {
        KnowsVersions = client.Capabilities?.Workspace?.WorkspaceEdit is { DocumentChanges: true },
        ConfirmsEdits = client.Capabilities?.Workspace?.WorkspaceEdit?.ChangeAnnotationSupport is not null,
        ResolvesActions = client.Capabilities?.TextDocument?.CodeAction is { DataSupport: true, ResolveSupport: { } resolve }
            && resolve.Properties.Contains("edit"),
        AsksForFindings = client.Capabilities?.TextDocument?.Diagnostic is not null,
        KnowsSnippets = client.Capabilities?.TextDocument?.Completion?.CompletionItem is { SnippetSupport: true },
        ShowsProgress = client.Capabilities?.Window is { WorkDoneProgress: true },
        RenewsHints = client.Capabilities?.Workspace?.InlayHint is { RefreshSupport: true },
        RenewsLenses = client.Capabilities?.Workspace?.CodeLens is { RefreshSupport: true },
        KnowsChecked = client.Capabilities?.Experimental?.Waterscript is { Checked: true },
        WatchesFiles = client.Capabilities?.Workspace?.DidChangeWatchedFiles is { DynamicRegistration: true },
    }.With(client.InitializationOptions);

    /// <summary>The same with settings; what cannot be read is left alone.</summary>
    public ServerState With(JsonElement settings)
    {
        if (settings.ValueKind != JsonValueKind.Object) return this;
        try
        {
            return settings.TryGetProperty("waterscript", out _)
                ? With(settings.Deserialize(ProtocolContext.Default.NamedSettings)?.Waterscript)
                : With(settings.Deserialize(ProtocolContext.Default.ServerSettings));
        }
        catch (JsonException)
        {
            return this;
        }
    }

    private ServerState With(ServerSettings? settings) => settings is null ? this : this with
    {
        ShowsAccepted = settings.Accepted ?? ShowsAccepted,
        ChecksWorkspace = settings.Check?.Workspace ?? ChecksWorkspace,
        ShowsEnds = settings.Hints?.Ends ?? ShowsEnds,
        ShowsAmounts = settings.Hints?.Amounts ?? ShowsAmounts,
        KeepsFormerName = settings.Rename?.Formerly ?? KeepsFormerName,
        ShowsLenses = settings.Lens ?? ShowsLenses,
    };
}
