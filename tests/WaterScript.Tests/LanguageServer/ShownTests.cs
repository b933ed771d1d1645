using System.Text.Json.Nodes;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>What an editor shows of the examples: parts, colours, hints, and what may come next.</summary>
public sealed class ShownTests : Workshop
{
    private const string Everything = """{ "textDocument": { "diagnostic": {}, "completion": { "completionItem": { "snippetSupport": true } } } }""";

    [Fact]
    public void Hints_of_the_terraces() => Assert.Equal(
        ["48 960 L", "51 165 L (salad 96, herbs 69)", "53 36 min, 576 L", "60 20:59 to 22:46:41"],
        Hints("examples/terraces.water", "2026-05-04T09:00:00Z"));

    [Fact]
    public void Hints_of_the_nursery() => Assert.Equal(
        ["37 to 19:", "38 95 × 1.2 L"],
        Hints("examples/nursery.water", "2026-11-25T08:00:05Z").Where(hint => hint.StartsWith("38 ", StringComparison.Ordinal)).Select(hint => hint[..13])
            .Prepend("37 to 19:"));

    [Fact]
    public void Lenses_of_the_terraces() => Assert.Equal(
        ["Mon 4 May 20:59 to 22:46:41, 1701 L", "not due before 4 May 2027"],
        Lenses("examples/terraces.water", "2026-05-04T09:00:00Z"));

    [Fact]
    public void Lens_of_a_schedule_under_way() =>
        Assert.Equal("now to 19:00, every 8 min, 68 more, 114 L today", Lenses("examples/nursery.water", "2026-11-25T08:00:05Z")[0]);

    [Fact]
    public void Symbols()
    {
        using var editor = Opened("examples/terraces.water", "2026-05-04T09:00:00Z");
        var symbols = editor.Request("textDocument/documentSymbol", editor.Of("site.water"))!.AsArray()
            .Select(symbol => $"{(string?)symbol!["name"]}  {(string?)symbol["detail"]}").ToList();
        Assert.Equal("terraces  Europe/Lisbon|cistern  30 L/min|wall  8 outputs|ac24  non-latching|lift  output 8|lemons  Lemon terrace, 1".Split('|'),
            symbols.Take(6));
        Assert.Equal("upper  lemons + vines|year  apr to sep|evening-round  4 steps|evening  mon, wed, fri|seedlings  every day".Split('|'), symbols.Skip(10));
    }

    [Fact]
    public void Folds_do_not_cross_and_links_lead_to_files()
    {
        foreach (var file in Repository.ExampleFiles) Write(Path.GetFileName(file), Repository.Read(file));
        using var editor = Opened("examples/park/park.water", "2026-05-04T09:00:00Z");
        var folds = editor.Request("textDocument/foldingRange", editor.Of("site.water"))!.AsArray()
            .Select(fold => ((int)fold!["startLine"]!, (int)fold["endLine"]!)).ToList();
        Assert.NotEmpty(folds);
        Assert.All(folds, fold => Assert.DoesNotContain(folds, other => other.Item1 < fold.Item1 && fold.Item1 <= other.Item2 && other.Item2 < fold.Item2));
        var links = editor.Request("textDocument/documentLink", editor.Of("site.water"))!.AsArray();
        Assert.NotEmpty(links);
        Assert.All(links, link => Assert.True(File.Exists(new Uri((string)link!["target"]!).LocalPath)));
    }

    [Fact]
    public void A_growing_selection_takes_in_more_and_more()
    {
        using var editor = Opened("examples/terraces.water", "2026-05-04T09:00:00Z");
        var selection = editor.Request("textDocument/selectionRange", new JsonObject
        {
            ["textDocument"] = new JsonObject { ["uri"] = editor.UriOf("site.water") },
            ["positions"] = new JsonArray(EditorClient.Place((47, 8))),
        })![0];
        var texts = new List<string>();
        for (; selection is not null; selection = selection["parent"])
            texts.Add($"{(int)selection["range"]!["start"]!["line"]!}:{(int)selection["range"]!["start"]!["character"]!}");
        Assert.Equal(["47:8", "47:2"], texts.Take(2));
        Assert.Equal("0:0", texts[^1]);
        Assert.True(texts.Count > 4, string.Join(' ', texts));
    }

    /// <summary>What became of the colours, made of the old ones, is what all of them are when they are asked for anew.</summary>
    [Fact]
    public void Changes_of_colours_lead_to_the_same_as_all_of_them()
    {
        using var editor = Opened("examples/terraces.water", "2026-05-04T09:00:00Z");
        var random = new Random(3);
        var full = editor.Request("textDocument/semanticTokens/full", editor.Of("site.water"))!;
        var (id, data) = ((string)full["resultId"]!, Numbers(full["data"]!));
        Assert.True(data.Count > 500);
        for (var step = 0; step < 40; step++)
        {
            var line = random.Next(80);
            editor.Change("site.water", (line, 0), (line, random.Next(4)), ((string[])["", "# ", "zone x { output 9 }\n", "lawn "])[random.Next(4)]);
            var parameters = editor.Of("site.water");
            parameters["previousResultId"] = id;
            var delta = editor.Request("textDocument/semanticTokens/full/delta", parameters)!;
            foreach (var edit in delta["edits"]?.AsArray() ?? [])
            {
                data.RemoveRange((int)edit!["start"]!, (int)edit["deleteCount"]!);
                data.InsertRange((int)edit["start"]!, Numbers(edit["data"]!));
            }

            id = (string)delta["resultId"]!;
            Assert.Equal(Numbers(editor.Request("textDocument/semanticTokens/full", editor.Of("site.water"))!["data"]!), data);
            id = (string)editor.Request("textDocument/semanticTokens/full", editor.Of("site.water"))!["resultId"]!;
        }
    }

    [Theory]
    [InlineData("zone new { output 6; | }", "valve flow rate soil wire supply emitters area method")]
    [InlineData("zone new { output | }", "6 7 1 2 3 4 5 8")]
    [InlineData("zone new { flow 14 | }", "L/min L/h m3/h gpm gph")]
    [InlineData("zone new { soil | }", "sand loamy-sand sandy-loam loam")]
    [InlineData("zone new { method | }", "drip bubbler spray rotor mist")]
    [InlineData("schedule new { steps { water | } }", "lemons herbs vines salad lawn upper all")]
    [InlineData("schedule new { steps { water lemons, | } }", "herbs vines salad lawn upper all")]
    [InlineData("schedule new { steps { water lemons | } }", "for with + ,")]
    [InlineData("schedule new { steps { water lemons for 10 min + | } }", "herbs vines salad lawn upper all")]
    [InlineData("schedule new { steps { water lemons for 10 min + herbs | } }", "for with +")]
    [InlineData("schedule new { steps { water lemons for 10 min + herbs with 4 | } }", "m3 mm")]
    [InlineData("supply new { refill 4 | }", "L/min L/h m3/h gpm gph")]
    [InlineData("supply new { refill 4 L/min | }", "from")]
    [InlineData("supply new { refill 4 L/min from 200 L | }", "to")]
    [InlineData("zone new { output 6; returns 60 | }", "%")]
    [InlineData("zone new { output 6; returns 60 % | }", "to")]
    [InlineData("zone new { output 6; returns 60 % to | }", "cistern")]
    [InlineData("pump new { output 6 | }", "of")]
    [InlineData("pump new { output 6 of | }", "wall")]
    [InlineData("pump new { output 6 of wall, | }", "7 1 2 3 4 5")]
    [InlineData("schedule new { steps { run | } }", "evening-round")]
    [InlineData("schedule new { every day; | }", "from start~at finish~by")]
    [InlineData("schedule new { on | }", "mon tue wed thu fri sat sun odd~days")]
    [InlineData("schedule new { start at | }", "08:15 sunrise sunset")]
    [InlineData("schedule new { scale | }", "year")]
    [InlineData("|", "zone schedule sequence supply controller valve pump group scale restriction hold let")]
    [InlineData("zone new \"|\" { }", "")]
    [InlineData("# |", "")]
    public void What_may_come_next(string line, string words)
    {
        var text = Repository.Read("examples/terraces.water");
        Write("site.water", text);
        using var editor = new EditorClient(Folder, capabilities: Everything);
        editor.Open("site.water", text + line.Replace("|", "", StringComparison.Ordinal) + "\n");
        // What would let more be checked comes first, which the rules say; an answer does not wait for them for long.
        editor.Findings("site.water");
        var offers = editor.Request("textDocument/completion",
            editor.At("site.water", text.Count(letter => letter == '\n'), line.IndexOf('|', StringComparison.Ordinal)));
        var labels = (offers?["items"]?.AsArray() ?? []).Select(item => (string)item!["label"]!).ToList();
        var expected = words.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => word.Replace('~', ' ')).ToList();
        Assert.Equal(expected, labels.Take(Math.Max(expected.Count, expected.Count == 0 ? 1 : 0)));
    }

    [Theory]
    [InlineData("schedule new { repeat every 8 min for | }", "repeat every INTERVAL for N passes", 3)]
    [InlineData("schedule new { steps { water | } }", "water ZONES for TIME through INJECTOR", 1)]
    public void How_a_statement_goes_on(string line, string form, int current)
    {
        using var editor = new EditorClient(Folder);
        editor.Open("site.water", line.Replace("|", "", StringComparison.Ordinal));
        var help = editor.Request("textDocument/signatureHelp", editor.At("site.water", 0, line.IndexOf('|', StringComparison.Ordinal)))!;
        Assert.Equal((form, current), ((string)help["signatures"]![0]!["label"]!, (int)help["activeParameter"]!));
    }

    private static List<int> Numbers(JsonNode numbers) => [.. numbers.AsArray().Select(number => (int)number!)];

    private EditorClient Opened(string path, string now)
    {
        var text = Repository.Read(path);
        Write("site.water", text);
        var editor = new EditorClient(Folder, now);
        editor.Open("site.water", text);
        return editor;
    }

    private string[] Hints(string path, string now)
    {
        using var editor = Opened(path, now);
        var parameters = editor.Of("site.water");
        parameters["range"] = new JsonObject { ["start"] = EditorClient.Place((0, 0)), ["end"] = EditorClient.Place((500, 0)) };
        return [.. editor.Request("textDocument/inlayHint", parameters)!.AsArray()
            .Select(hint => $"{(int)hint!["position"]!["line"]! + 1} {(string?)hint["label"]}").Order(StringComparer.Ordinal)];
    }

    private string[] Lenses(string path, string now)
    {
        using var editor = Opened(path, now);
        return [.. editor.Request("textDocument/codeLens", editor.Of("site.water"))!.AsArray().Select(lens => (string)lens!["command"]!["title"]!)];
    }
}
