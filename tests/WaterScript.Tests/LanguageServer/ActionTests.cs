using System.Text;
using System.Text.Json.Nodes;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>Actions whose edits are made once somebody has chosen one, and those that give a part of a text a name. <c>compile</c> is the judge.</summary>
public sealed class ActionTests : Workshop
{
    private const string Asks = """
        {
          "workspace": { "workspaceEdit": { "documentChanges": true } },
          "textDocument": { "codeAction": { "dataSupport": true, "resolveSupport": { "properties": ["edit"] } } }
        }
        """;

    private const string Lists = """
        site garden { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1; flow 10 L/min }
        zone beds { output 2; flow 12 L/min }
        schedule a {
          every day; start at 06:00
          steps { water lawn + beds for 12 min; water beds, lawn for 3 min }
        }
        schedule b { every day; start at 20:00; steps { water lawn + beds for 12 min } }

        """;

    [Fact]
    public void Edits_come_when_an_action_is_chosen()
    {
        const string text = "site garden { timezone Europe/Lisbon; effective 2026-03-01 }\nzone lawn { output 1 }\n"
            + "schedule a { every day; start at 06:00; steps { water lwan for 10 min } }\n";
        using var editor = new EditorClient(Folder, capabilities: Asks);
        editor.Open("site.water", text);
        var offered = Actions(editor, text, "lwan").First(action => (string?)action!["title"] == "Write lawn")!;
        Assert.Null(offered["edit"]);
        var chosen = editor.Request("codeAction/resolve", (JsonObject)offered.DeepClone())!;
        var edit = chosen["edit"]!["documentChanges"]![0]!;
        Assert.Equal((1, "lawn"), ((int)edit["textDocument"]!["version"]!, (string?)edit["edits"]![0]!["newText"]));
        using var other = new EditorClient(Folder);
        other.Open("site.water", text);
        var atOnce = Actions(other, text, "lwan").First(action => (string?)action!["title"] == "Write lawn")!;
        Assert.Equal(atOnce["edit"]!.ToJsonString(), chosen["edit"]!.ToJsonString());
        editor.Change("site.water", (0, 0), (0, 0), "# a remark\n");
        Assert.Equal(-32801, (int)editor.Answer("codeAction/resolve", (JsonObject)offered.DeepClone())["error"]!["code"]!);
    }

    [Fact]
    public void A_quantity_gets_a_name()
    {
        var named = Chosen(Lists, "12 min", "Give 12 min a name");
        Assert.Contains("let run-time = 12 min\n\nschedule a {", named, StringComparison.Ordinal);
        Assert.Contains("water lawn + beds for run-time; water beds, lawn for 3 min", named, StringComparison.Ordinal);
        Assert.Equal(Runs(Lists), Runs(named));
    }

    [Fact]
    public void A_list_that_stands_twice_becomes_a_group()
    {
        var named = Chosen(Lists, "+ beds", "Group lawn + beds");
        Assert.Contains("group lawn-group = lawn + beds\n\nschedule a {", named, StringComparison.Ordinal);
        Assert.Equal(2, named.Split("water lawn-group for 12 min").Length - 1);
        Assert.Contains("water beds, lawn for 3 min", named, StringComparison.Ordinal);
        Assert.Equal(Runs(Lists), Runs(named));
    }

    [Fact]
    public void A_list_that_stands_once_does_not()
    {
        using var editor = Opened(Lists);
        Assert.DoesNotContain(Actions(editor, Lists, ", lawn for 3"), action => ((string)action!["title"]!).StartsWith("Group", StringComparison.Ordinal));
    }

    [Fact]
    public void A_climate_has_twelve_months_to_fill()
    {
        var text = Repository.Read("examples/terraces.water");
        using var editor = Opened(text);
        var action = Actions(editor, text, "terraces \"").First(each =>
            ((string)each!["title"]!).StartsWith("Add a climate (water need", StringComparison.Ordinal));
        var filled = Applied(text, action!);
        editor.Replace("site.water", filled);
        Assert.Equal(12, editor.Findings("site.water").Count(finding => (int)finding!["severity"]! == 1));
        var months = "jan feb mar apr may jun jul aug sep oct nov dec".Split(' ');
        Assert.All(months, month => Assert.Matches($"\\n  {month}( |\\n)", filled));
        editor.Replace("site.water", months.Aggregate(filled, (now, month) =>
            now.Replace($"\n  {month}", $"\n  {month} et 3 mm/day, rain 20 mm", StringComparison.Ordinal)));
        Assert.DoesNotContain(editor.Findings("site.water"), finding => (int)finding!["severity"]! == 1 && (string?)finding["code"] == "syntax");
    }

    [Fact]
    public void What_is_offered_is_explained_once_somebody_looks_at_it()
    {
        var text = Repository.Read("examples/terraces.water");
        using var editor = Opened(text);
        _ = editor.Findings("site.water");
        var items = editor.Request("textDocument/completion", editor.At("site.water", 52, "  water ".Length))!["items"]!.AsArray();
        var lemons = items.First(item => (string?)item!["label"] == "lemons")!;
        Assert.Null(lemons["documentation"]);
        var looked = editor.Request("completionItem/resolve", (JsonObject)lemons.DeepClone())!;
        var hover = editor.Request("textDocument/hover", editor.At("site.water", 28, 6))!;
        Assert.Equal((string?)hover["contents"]!["value"], (string?)looked["documentation"]!["value"]);
        Assert.Equal("lemons", (string?)looked["label"]);
    }

    [Fact]
    public void A_hint_says_more_to_who_points_at_it()
    {
        var text = Repository.Read("examples/terraces.water");
        using var editor = Opened(text);
        _ = editor.Findings("site.water");
        var parameters = editor.Of("site.water");
        parameters["range"] = new JsonObject { ["start"] = EditorClient.Place((0, 0)), ["end"] = EditorClient.Place((90, 0)) };
        var hint = editor.Request("textDocument/inlayHint", parameters)!.AsArray().First(each => (int)each!["position"]!["line"]! == 47)!;
        var hover = editor.Request("textDocument/hover", editor.At("site.water", 47, 2))!;
        Assert.Equal((string?)hover["contents"]!["value"], (string?)hint["tooltip"]!["value"]);
    }

    private EditorClient Opened(string text)
    {
        var editor = new EditorClient(Folder);
        editor.Open("site.water", text);
        return editor;
    }

    private string Chosen(string text, string place, string title)
    {
        using var editor = Opened(text);
        return Applied(text, Actions(editor, text, place).First(action => (string?)action!["title"] == title)!);
    }

    private static JsonArray Actions(EditorClient editor, string text, string place)
    {
        var offset = text.IndexOf(place, StringComparison.Ordinal);
        var line = text[..offset].Count(letter => letter == '\n');
        var at = (line, offset - (text.LastIndexOf('\n', offset) + 1));
        return editor.Request("textDocument/codeAction", new JsonObject
        {
            ["textDocument"] = new JsonObject { ["uri"] = editor.UriOf("site.water") },
            ["range"] = new JsonObject { ["start"] = EditorClient.Place(at), ["end"] = EditorClient.Place(at) },
            ["context"] = new JsonObject { ["diagnostics"] = new JsonArray() },
        })!.AsArray();
    }

    private static string Applied(string text, JsonNode action)
    {
        int Offset(JsonNode place) => text.Split('\n').Take((int)place["line"]!).Sum(line => line.Length + 1) + (int)place["character"]!;
        var result = new StringBuilder(text);
        foreach (var edit in action["edit"]!["documentChanges"]![0]!["edits"]!.AsArray().OrderByDescending(edit => Offset(edit!["range"]!["start"]!)))
        {
            var (from, to) = (Offset(edit!["range"]!["start"]!), Offset(edit["range"]!["end"]!));
            result.Remove(from, to - from).Insert(from, (string)edit["newText"]!);
        }

        return result.ToString();
    }

    /// <summary>All runs of a year, but for the steps that they come from.</summary>
    private string Runs(string text)
    {
        Write("runs.water", text);
        Assert.Equal(0, Run("compile", "runs.water", "--to", "csv", "-o", "runs.csv").ExitCode);
        return string.Join('\n', Read("runs.csv").Split('\n').Select(line => string.Join(',', line.Split(',').Take(4))));
    }
}
