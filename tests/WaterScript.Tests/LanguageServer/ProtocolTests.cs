using System.Diagnostics;
using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Cli.LanguageServer;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>The server and its client: how it begins and ends, and that nothing that a client sends brings it down.</summary>
public sealed class ProtocolTests : Workshop
{
    /// <summary>More than a second, because the tests share the machine.</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(15);

    [Fact]
    public void It_ends_with_the_client_and_says_whether_that_was_meant()
    {
        using (var gone = new EditorClient(Folder))
        {
            gone.Die();
            Assert.True(gone.HasEnded(Soon));
            Assert.Equal(1, gone.Exit);
        }

        using var meant = new EditorClient(Folder);
        meant.Request("shutdown", []);
        meant.Notify("exit", []);
        Assert.True(meant.HasEnded(Soon));
        Assert.Equal(0, meant.Exit);
    }

    [Fact]
    public void It_ends_when_the_process_of_the_client_is_gone()
    {
        using var process = Process.Start(new ProcessStartInfo(WaterscriptProcess.Path, "--version") { RedirectStandardOutput = true })!;
        process.WaitForExit();
        using var editor = new EditorClient(Folder, process: process.Id);
        Assert.True(editor.HasEnded(Soon));
    }

    [Fact]
    public void What_is_no_message_is_refused_and_the_next_is_answered()
    {
        using var editor = new EditorClient(Folder);
        foreach (var body in (string[])["{", "[]", "{}", "7", "null", "{\"id\":{}}", "{\"method\":7}", ""])
        {
            editor.SendBody(body);
            var code = (int)editor.WaitFor("error", _ => true)["error"]!["code"]!;
            Assert.Contains(code, new[] { -32700, -32600 });
        }

        Assert.Equal(-32601, (int)editor.Answer("textDocument/nothing", [])["error"]!["code"]!);
        Assert.Equal(-32602, (int)editor.Answer("textDocument/hover", [])["error"]!["code"]!);
        Assert.Equal(-32602, (int)editor.Answer("textDocument/hover", editor.At("never-opened.water", 0, 0))["error"]!["code"]!);
        editor.Notify("$/unknown", []);
        editor.Open("site.water", Good);
        Assert.DoesNotContain(editor.Findings("site.water"), finding => (int)finding!["severity"]! == 1);
    }

    [Fact]
    public async Task Every_request_is_answered_whether_it_is_cancelled_or_not()
    {
        using var editor = new EditorClient(Folder);
        editor.Open("site.water", Good);
        var answers = new List<Task<JsonNode>>();
        for (var i = 0; i < 200; i++)
        {
            var (id, answer) = editor.Begin(i % 2 == 0 ? "textDocument/diagnostic" : "textDocument/hover", editor.At("site.water", 1, 6));
            answers.Add(answer);
            if (i % 3 == 0) editor.Notify("$/cancelRequest", new JsonObject { ["id"] = id });
        }

        var all = await Task.WhenAll(answers).WaitAsync(Soon);
        Assert.All(all, answer => Assert.True(answer["error"] is not { } error || (int)error["code"]! == -32800, answer.ToJsonString()));
    }

    [Fact]
    public async Task Bytes_that_are_no_messages_end_it()
    {
        var random = new Random(7);
        string[] parts = ["Content-Length: ", "5", "\r\n", "\r\n\r\n", "{}", "{\"method\":\"exit\"}", "-1", "99999999999", "\0", "é", "Content-Type: x\r\n",
            "\n\n"];
        for (var input = 0; input < 300; input++)
        {
            var bytes = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Range(0, random.Next(12)).Select(_ => parts[random.Next(parts.Length)])));
            var stream = new MessageStream(new MemoryStream(bytes), new MemoryStream());
            using var server = new Server(stream, new Surroundings(Folder, _ => null, SystemClock.Instance), DateTimeZoneProviders.Tzdb);
            Assert.InRange(await Task.Run(server.Run).WaitAsync(Soon), 0, 1);
        }
    }

    public static TheoryData<string, string> Hostile => new()
    {
        { "deep", new string('{', 50_000) },
        { "deep steps", "schedule x { steps { " + string.Concat(Enumerable.Repeat("repeat 2 times { ", 5_000)) },
        { "one long line", "zone x { label " + new string('a', 4_900_000) },
        { "too long", new string(' ', 6_000_000) },
        { "many quotes", string.Concat(Enumerable.Repeat("\"a\n", 100_000)) },
        { "many zones", string.Concat(Enumerable.Range(0, 5_000).Select(i => $"zone z{i} {{ output {i} }}\n")) },
    };

    [Theory]
    [MemberData(nameof(Hostile))]
    public void A_hostile_file_keeps_nobody_waiting(string name, string text)
    {
        using var editor = new EditorClient(Folder);
        editor.Open("good.water", Good);
        _ = editor.Findings("good.water");
        editor.Open("hostile.water", text);
        var watch = Stopwatch.StartNew();
        Assert.NotNull(editor.Request("textDocument/hover", editor.At("good.water", 1, 6)));
        Assert.True(watch.Elapsed < Soon, name);
        Assert.NotNull(editor.Findings("hostile.water"));
        foreach (var method in (string[])["textDocument/hover", "textDocument/completion", "textDocument/definition", "textDocument/documentHighlight"])
            _ = editor.Request(method, editor.At("hostile.water", 0, 3));
        foreach (var method in (string[])["textDocument/documentSymbol", "textDocument/foldingRange", "textDocument/semanticTokens/full",
            "textDocument/codeLens", "waterscript/night", "waterscript/picture", "waterscript/nights", "waterscript/names", "waterscript/status",
            "waterscript/list"])
            _ = editor.Request(method, editor.Of("hostile.water"));
    }
}
