using System.Collections.Concurrent;
using System.Reflection;
using System.Text.Json;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Cli.LanguageServer.Features;
using WaterScript.Cli.LanguageServer.Protocol;

namespace WaterScript.Cli.LanguageServer;

/// <summary>
/// The server: one thread reads messages and lets a cancellation overtake all that waits, this one takes them in turn and changes the state, and answers are
/// worked out beside both from what the state was.
/// </summary>
internal sealed class Server : IDisposable
{
    private static readonly ProtocolContext Types = ProtocolContext.Default;

    private readonly MessageStream _stream;
    private readonly Client _client;
    private readonly Requests _requests;
    private readonly Workspace _workspace;
    private readonly FindingsPublisher _findings;
    private readonly BlockingCollection<Action> _turns = [];
    private ParentWatch? _parent;
    private ServerState? _state;
    private bool _isShutDown;
    private int? _exit;

    /// <summary>Makes one.</summary>
    /// <param name="stream">Where the client is.</param>
    /// <param name="surroundings">What the process has around it.</param>
    /// <param name="timeZones">Where time zones come from.</param>
    /// <param name="quick">How long a check may take before what reading finds is shown ahead of it; null for what people do not notice.</param>
    public Server(MessageStream stream, Surroundings surroundings, IDateTimeZoneProvider timeZones, TimeSpan? quick = null)
    {
        (_stream, _client) = (stream, new Client(stream));
        (_requests, _workspace) = (new Requests(_client), new Workspace(surroundings, timeZones));
        _findings = new FindingsPublisher(_client, quick ?? FindingsPublisher.Quick);
        Register();
    }

    /// <summary>Serves until the client says goodbye, or is not there any more.</summary>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public int Run()
    {
        new Thread(ReadAll) { IsBackground = true, Name = "messages" }.Start();
        while (_exit is null) _turns.Take()();
        return _exit.Value;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _parent?.Dispose();
        _findings.Dispose();
    }

    private void ReadAll()
    {
        try
        {
            while (_stream.Read() is { } body) Accept(body);
        }
        catch (Exception problem) when (problem is IOException or InvalidDataException or ReaderGoneException or ObjectDisposedException)
        {
            // Nobody knows where the next message begins, so none can be read any more.
        }

        _turns.Add(End);
    }

    private void End() => _exit ??= _isShutDown ? ExitCode.Success : ExitCode.Findings;

    private void Accept(byte[] body)
    {
        Message message;
        try
        {
            message = Message.Of(body);
        }
        catch (JsonException)
        {
            _client.Refuse(id: null, ErrorCode.ParseError, "this is not JSON");
            return;
        }
        catch (InvalidDataException problem)
        {
            _client.Refuse(id: null, ErrorCode.InvalidRequest, problem.Message);
            return;
        }

        if (message.Method == "$/cancelRequest")
        {
            if (message.Parameters.ValueKind == JsonValueKind.Object && message.Parameters.TryGetProperty("id", out var id)) _requests.Cancel(id.GetRawText());
            return;
        }

        _requests.Expect(message);
        _turns.Add(() => Take(message));
    }

    private void Take(Message message)
    {
        if (message.Method == "exit") End();
        else if (message.Method == "initialize" && _state is null) Guarded(() => Initialize(message));
        else if (_state is null || (_isShutDown && message.Method is not null))
        {
            if (message is { Id: { } id, Method: not null })
                Guarded(() => _client.Refuse(id, _state is null ? ErrorCode.NotInitialized : ErrorCode.InvalidRequest, "not now"));
        }
        else if (message.Method == "shutdown")
        {
            _isShutDown = true;
            if (message.Id is { } id) Guarded(() => _client.Answer<FullReport>(id, null, Types.FullReport));
        }
        else
        {
            Guarded(() => _requests.Handle(message));
        }
    }

    /// <summary>Where nobody reads the answers any more, the end has come.</summary>
    private void Guarded(Action work)
    {
        try
        {
            work();
        }
        catch (ReaderGoneException)
        {
            End();
        }
    }

    private void Initialize(Message message)
    {
        InitializeParams client;
        try
        {
            client = message.Parameters.ValueKind == JsonValueKind.Object ? message.Parameters.Deserialize(Types.InitializeParams)! : new InitializeParams();
        }
        catch (JsonException)
        {
            client = new InitializeParams();
        }

        _state = ServerState.Of(client);
        if (client.ProcessId is > 0 and var process) _parent = new ParentWatch(process, () => _turns.Add(End));
        _workspace.Begin(client.WorkspaceFolders?.Select(folder => folder.Uri) ?? (client.RootUri is { } root ? [root] : []));
        Search();
        if (message.Id is { } id) _client.Answer(id, Greeting(_state), Types.InitializeResult);
    }

    private static InitializeResult Greeting(ServerState state) => new(
        new ServerCapabilities
        {
            DiagnosticProvider = state.AsksForFindings ? new DiagnosticOptions("waterscript", InterFileDependencies: true, WorkspaceDiagnostics: true) : null,
            SemanticTokensProvider = TokenFeatures.Options,
            Experimental = NightFeatures.Capabilities,
        },
        new ServerInfo(CommandLine.Program, typeof(Server).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? ""));

    /// <summary>Looks for files beside what else there is to do, and then looks at what is open again: more sites may include it.</summary>
    private void Search()
    {
        var search = _workspace.Search();
        ThreadPool.QueueUserWorkItem(_ =>
        {
            var files = search();
            _turns.Add(() =>
            {
                _workspace.Know(files);
                Publish();
            });
        });
    }

    private void Publish()
    {
        if (_state is { } state) _findings.Publish(_workspace.Now, state);
    }

    private void Register()
    {
        _requests.Notification("initialized", Types.JsonElement, _ => WatchFiles());
        _requests.Notification("textDocument/didOpen", Types.DidOpenParams, opened => Change(() => _workspace.Open(opened.TextDocument)));
        _requests.Notification("textDocument/didChange", Types.DidChangeParams,
            change => Change(() => _workspace.Change(change.TextDocument, change.ContentChanges)));
        _requests.Notification("textDocument/didClose", Types.DocumentParams, closed => Change(() => _workspace.Close(closed.TextDocument.Uri)));
        _requests.Notification("textDocument/didSave", Types.DocumentParams, saved => Change(() => _workspace.Renew([saved.TextDocument.Uri])));
        _requests.Notification("workspace/didChangeWatchedFiles", Types.FilesChangedParams, files =>
        {
            Change(() => _workspace.Renew(files.Changes.Select(file => file.Uri)));
            Search();
        });
        _requests.Notification("workspace/didChangeWorkspaceFolders", Types.FoldersChangedParams, folders =>
        {
            _workspace.Change(folders.Event.Added.Select(folder => folder.Uri), folders.Event.Removed.Select(folder => folder.Uri));
            Search();
        });
        _requests.Notification("workspace/didChangeConfiguration", Types.SettingsParams, changed => Change(() => _state = _state!.With(changed.Settings)));
        _requests.Notification("window/workDoneProgress/cancel", Types.ProgressCreateParams, shown => _findings.Stop(shown.Token));
        var asker = new Asker(_requests, _workspace, () => _state!);
        FindingFeatures.Register(asker);
        ChangeFeatures.Register(asker);
        NameFeatures.Register(asker, _client);
        OutlineFeatures.Register(asker);
        TokenFeatures.Register(asker);
        ReadingFeatures.Register(asker);
        WritingFeatures.Register(asker);
        NightFeatures.Register(asker);
    }

    private void Change(Action change)
    {
        change();
        Publish();
    }

    private void WatchFiles()
    {
        if (_state is not { WatchesFiles: true }) return;
        var watch = new Registration("files", "workspace/didChangeWatchedFiles", new WatchOptions([new FileWatcher("**/*.water")]));
        _client.Request("client/registerCapability", new RegistrationParams([watch]), Types.RegistrationParams);
    }
}
