using System.Collections.Concurrent;
using System.Globalization;
using System.IO.Pipes;
using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using WaterScript.Cli.Files;
using WaterScript.Cli.LanguageServer;

namespace WaterScript.Tests.LanguageServer;

/// <summary>An editor that a server serves inside the tests, with its own idea of what time it is.</summary>
internal sealed class EditorClient : IDisposable
{
    /// <summary>After so long a server counts as one that does not answer.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    private const string Versions = """
        {
          "workspace": { "workspaceEdit": { "documentChanges": true } },
          "textDocument": { "diagnostic": {}, "completion": { "completionItem": { "snippetSupport": true } } }
        }
        """;

    private readonly AnonymousPipeServerStream _toServer = new(PipeDirection.Out);
    private readonly AnonymousPipeServerStream _fromServer = new(PipeDirection.In);
    private readonly BlockingCollection<JsonNode> _notifications = [];
    private readonly ConcurrentDictionary<int, TaskCompletionSource<JsonNode>> _answers = [];
    private readonly Dictionary<string, int> _versions = [];
    private readonly Thread _server;
    private readonly MessageStream _stream;
    private int _requests;

    /// <summary>Starts one in a folder.</summary>
    /// <param name="folder">What is worked in.</param>
    /// <param name="now">What time it is, by UTC.</param>
    /// <param name="capabilities">What the client can do; null for one that asks for findings and knows versions.</param>
    /// <param name="settings">What the user has set.</param>
    /// <param name="process">The process that it says it is; null for that of the tests.</param>
    /// <param name="quick">How long a check may take before what reading finds is shown ahead of it; null for the server's own.</param>
    public EditorClient(string folder, string now = "2026-05-04T09:00:00Z", string? capabilities = null, string settings = "{}", int? process = null,
        TimeSpan? quick = null)
    {
        Folder = RealPath.Of(folder, Surroundings.OfProcess());
        var input = new AnonymousPipeClientStream(PipeDirection.In, _toServer.ClientSafePipeHandle);
        var output = new AnonymousPipeClientStream(PipeDirection.Out, _fromServer.ClientSafePipeHandle);
        var clock = new FixedClock(InstantPattern.General.Parse(now).Value);
        _server = new Thread(() =>
        {
            var stream = new MessageStream(input, output);
            using var server = new Server(stream, new Surroundings(Folder, _ => null, clock), DateTimeZoneProviders.Tzdb, quick);
            Exit = server.Run();
            output.Dispose();
        })
        { IsBackground = true };
        _server.Start();
        _stream = new MessageStream(_fromServer, _toServer);
        new Thread(Read) { IsBackground = true }.Start();
        Greeting = Request("initialize", new JsonObject
        {
            ["processId"] = process ?? Environment.ProcessId,
            ["workspaceFolders"] = new JsonArray(new JsonObject { ["uri"] = UriOf(""), ["name"] = "work" }),
            ["capabilities"] = JsonNode.Parse(capabilities ?? Versions),
            ["initializationOptions"] = JsonNode.Parse(settings),
        })!;
        Notify("initialized", []);
    }

    /// <summary>What the server says of itself.</summary>
    public JsonNode Greeting { get; }

    /// <summary>What the server handed back when it ended; null before.</summary>
    public int? Exit { get; private set; }

    /// <summary>What is worked in.</summary>
    public string Folder { get; }

    /// <summary>Waits for the server to end.</summary>
    public bool HasEnded(TimeSpan patience) => _server.Join(patience);

    /// <summary>The client goes without a word.</summary>
    public void Die() => _toServer.Dispose();

    /// <inheritdoc/>
    public void Dispose()
    {
        Die();
        _server.Join(Patience);
        _fromServer.Dispose();
        _notifications.Dispose();
    }

    /// <summary>How the server calls a file of the folder.</summary>
    public string UriOf(string path) => new Uri(Path.Combine(Folder, path)).AbsoluteUri;

    /// <summary>Opens a file of the folder with a text.</summary>
    public void Open(string path, string text)
    {
        _versions[path] = 1;
        Notify("textDocument/didOpen", new JsonObject
        {
            ["textDocument"] = new JsonObject { ["uri"] = UriOf(path), ["languageId"] = "waterscript", ["version"] = 1, ["text"] = text },
        });
    }

    /// <summary>Replaces a stretch of an open file.</summary>
    public void Change(string path, (int Line, int Character) from, (int Line, int Character) to, string text) => ChangeAll(path, new JsonArray(new JsonObject
    {
        ["range"] = new JsonObject { ["start"] = Place(from), ["end"] = Place(to) },
        ["text"] = text,
    }));

    /// <summary>Replaces all of an open file.</summary>
    public void Replace(string path, string text) => ChangeAll(path, new JsonArray(new JsonObject { ["text"] = text }));

    /// <summary>The version of an open file.</summary>
    public int VersionOf(string path) => _versions[path];

    /// <summary>A place of a file, in the parameters of a request.</summary>
    public JsonObject At(string path, int line, int character) => new()
    {
        ["textDocument"] = new JsonObject { ["uri"] = UriOf(path) },
        ["position"] = Place((line, character)),
    };

    /// <summary>A file, in the parameters of a request.</summary>
    public JsonObject Of(string path) => new() { ["textDocument"] = new JsonObject { ["uri"] = UriOf(path) } };

    /// <summary>A place.</summary>
    public static JsonObject Place((int Line, int Character) place) => new() { ["line"] = place.Line, ["character"] = place.Character };

    /// <summary>What is found in a file.</summary>
    public JsonArray Findings(string path) => Request("textDocument/diagnostic", Of(path))!["items"]!.AsArray();

    /// <summary>Asks; what is answered.</summary>
    public JsonNode? Request(string method, JsonObject parameters)
    {
        var answer = Answer(method, parameters);
        return answer["error"] is { } error ? throw new InvalidOperationException($"{method}: {error.ToJsonString()}") : answer["result"];
    }

    /// <summary>Asks; the whole answer, or error.</summary>
    public JsonNode Answer(string method, JsonObject parameters)
    {
        var (_, answer) = Begin(method, parameters);
        return answer.Wait(Patience) ? answer.Result : throw new TimeoutException(method);
    }

    /// <summary>Asks, and does not wait.</summary>
    public (int Id, Task<JsonNode> Answer) Begin(string method, JsonObject parameters)
    {
        var id = Interlocked.Increment(ref _requests);
        var answer = _answers.GetOrAdd(id, _ => new TaskCompletionSource<JsonNode>(TaskCreationOptions.RunContinuationsAsynchronously));
        Send(new JsonObject { ["jsonrpc"] = "2.0", ["id"] = id, ["method"] = method, ["params"] = parameters });
        return (id, answer.Task);
    }

    /// <summary>Lets the server know something.</summary>
    public void Notify(string method, JsonObject parameters) => Send(new JsonObject { ["jsonrpc"] = "2.0", ["method"] = method, ["params"] = parameters });

    /// <summary>Sends bytes as they are.</summary>
    public void SendRaw(string text)
    {
        _toServer.Write(Encoding.UTF8.GetBytes(text));
        _toServer.Flush();
    }

    /// <summary>Sends one message that may be none.</summary>
    public void SendBody(string body) => _stream.Write(Encoding.UTF8.GetBytes(body));

    /// <summary>The next notification of a method that is as expected.</summary>
    public JsonNode WaitFor(string method, Func<JsonNode, bool> isExpected)
    {
        using var patience = new CancellationTokenSource(Patience);
        foreach (var notification in _notifications.GetConsumingEnumerable(patience.Token))
        {
            if ((string?)notification["method"] == method && isExpected(notification["params"]!)) return notification["params"]!;
        }

        throw new TimeoutException(method);
    }

    private void ChangeAll(string path, JsonArray changes) => Notify("textDocument/didChange", new JsonObject
    {
        ["textDocument"] = new JsonObject { ["uri"] = UriOf(path), ["version"] = ++_versions[path] },
        ["contentChanges"] = changes,
    });

    private void Send(JsonObject message) => SendBody(message.ToJsonString());

    private void Read()
    {
        try
        {
            while (_stream.Read() is { } body)
            {
                var message = JsonNode.Parse(body)!;
                if (message["method"] is not null) _notifications.Add(message);
                else if (message["id"] is { } id && int.TryParse(id.ToJsonString(), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                    && _answers.TryGetValue(number, out var answer)) answer.TrySetResult(message);
                else _notifications.Add(new JsonObject { ["method"] = "error", ["params"] = message.DeepClone() });
            }
        }
        catch (Exception problem) when (problem is IOException or ObjectDisposedException or InvalidOperationException)
        {
            // The test is over.
        }
    }

    private sealed class FixedClock(Instant now) : IClock
    {
        public Instant GetCurrentInstant() => now;
    }
}
