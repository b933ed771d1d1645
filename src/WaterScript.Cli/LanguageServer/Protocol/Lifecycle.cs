using System.Text.Json;

namespace WaterScript.Cli.LanguageServer.Protocol;

/// <summary>What a client says of itself.</summary>
internal sealed record InitializeParams
{
    public int? ProcessId { get; init; }

    public string? RootUri { get; init; }

    public IReadOnlyList<WorkspaceFolder>? WorkspaceFolders { get; init; }

    public ClientCapabilities? Capabilities { get; init; }

    /// <summary>Settings, as <see cref="ServerSettings"/> has them.</summary>
    public JsonElement InitializationOptions { get; init; }
}

/// <summary>A folder that is worked in.</summary>
internal sealed record WorkspaceFolder(string Uri, string Name = "");

/// <summary>What a client can do, as far as it makes a difference.</summary>
internal sealed record ClientCapabilities
{
    public WorkspaceCapabilities? Workspace { get; init; }

    public TextDocumentCapabilities? TextDocument { get; init; }

    public WindowCapabilities? Window { get; init; }

    public ExperimentalClientCapabilities? Experimental { get; init; }
}

internal sealed record ExperimentalClientCapabilities(OwnClientCapabilities? Waterscript = null);

/// <summary>What a client of this server's own can do beyond the protocol.</summary>
internal sealed record OwnClientCapabilities(bool Checked = false);

internal sealed record WorkspaceCapabilities
{
    public WorkspaceEditCapabilities? WorkspaceEdit { get; init; }

    public RefreshCapabilities? InlayHint { get; init; }

    public RefreshCapabilities? CodeLens { get; init; }

    public DynamicCapabilities? DidChangeWatchedFiles { get; init; }
}

internal sealed record WorkspaceEditCapabilities(bool DocumentChanges = false, EmptyOptions? ChangeAnnotationSupport = null);

internal sealed record RefreshCapabilities(bool RefreshSupport = false);

internal sealed record DynamicCapabilities(bool DynamicRegistration = false);

internal sealed record WindowCapabilities(bool WorkDoneProgress = false);

internal sealed record TextDocumentCapabilities
{
    public DynamicCapabilities? Diagnostic { get; init; }

    public CompletionCapabilities? Completion { get; init; }

    public CodeActionCapabilities? CodeAction { get; init; }
}

internal sealed record CodeActionCapabilities(bool DataSupport = false, ResolveCapabilities? ResolveSupport = null);

internal sealed record ResolveCapabilities(IReadOnlyList<string> Properties);

internal sealed record CompletionCapabilities(CompletionItemCapabilities? CompletionItem = null);

internal sealed record CompletionItemCapabilities(bool SnippetSupport = false);

internal sealed record InitializeResult(ServerCapabilities Capabilities, ServerInfo ServerInfo);

internal sealed record ServerInfo(string Name, string Version);

/// <summary>What this server can do.</summary>
internal sealed record ServerCapabilities
{
    public string PositionEncoding { get; } = "utf-16";

    public SyncOptions TextDocumentSync { get; } = new(OpenClose: true, Change: 2, Save: true);

    public DiagnosticOptions? DiagnosticProvider { get; init; }

    public CodeActionOptions CodeActionProvider { get; } = new(["quickfix", "refactor.extract", "refactor.inline", "refactor.rewrite",
        "source.fixAll.waterscript"], ResolveProvider: true);

    public bool DocumentFormattingProvider { get; } = true;

    public bool DocumentRangeFormattingProvider { get; } = true;

    public OnTypeOptions DocumentOnTypeFormattingProvider { get; } = new("}");

    public CompletionOptions CompletionProvider { get; } = new([" ", "/", "\""], ResolveProvider: true);

    public TriggerOptions SignatureHelpProvider { get; } = new([" "]);

    public bool HoverProvider { get; } = true;

    public bool DefinitionProvider { get; } = true;

    public bool ReferencesProvider { get; } = true;

    public bool DocumentHighlightProvider { get; } = true;

    public RenameOptions RenameProvider { get; } = new(PrepareProvider: true);

    public bool DocumentSymbolProvider { get; } = true;

    public bool WorkspaceSymbolProvider { get; } = true;

    public EmptyOptions DocumentLinkProvider { get; } = new();

    public bool FoldingRangeProvider { get; } = true;

    public bool SelectionRangeProvider { get; } = true;

    public required SemanticTokensOptions SemanticTokensProvider { get; init; }

    public bool InlayHintProvider { get; } = true;

    public EmptyOptions CodeLensProvider { get; } = new();

    public required ExperimentalCapabilities Experimental { get; init; }

    public WorkspaceOptions Workspace { get; } = new(new FolderOptions(Supported: true, ChangeNotifications: true));
}

internal sealed record SyncOptions(bool OpenClose, int Change, bool Save);

internal sealed record DiagnosticOptions(string Identifier, bool InterFileDependencies, bool WorkspaceDiagnostics);

internal sealed record CodeActionOptions(IReadOnlyList<string> CodeActionKinds, bool ResolveProvider);

internal sealed record OnTypeOptions(string FirstTriggerCharacter);

internal sealed record CompletionOptions(IReadOnlyList<string> TriggerCharacters, bool ResolveProvider);

internal sealed record TriggerOptions(IReadOnlyList<string> TriggerCharacters);

internal sealed record RenameOptions(bool PrepareProvider);

internal sealed record EmptyOptions;

internal sealed record SemanticTokensOptions(TokenLegend Legend, TokenRequests Full, bool Range);

internal sealed record TokenRequests(bool Delta);

internal sealed record TokenLegend(IReadOnlyList<string> TokenTypes, IReadOnlyList<string> TokenModifiers);

internal sealed record WorkspaceOptions(FolderOptions WorkspaceFolders);

internal sealed record FolderOptions(bool Supported, bool ChangeNotifications);

/// <summary>Asks a client to send what else happens.</summary>
internal sealed record RegistrationParams(IReadOnlyList<Registration> Registrations);

internal sealed record Registration(string Id, string Method, WatchOptions RegisterOptions);

internal sealed record WatchOptions(IReadOnlyList<FileWatcher> Watchers);

internal sealed record FileWatcher(string GlobPattern);

internal sealed record LogMessageParams(int Type, string Message);

internal sealed record ProgressCreateParams(string Token);

internal sealed record ProgressParams(string Token, ProgressValue Value);

internal sealed record ProgressValue(string Kind, string? Title, string? Message, bool? Cancellable);
