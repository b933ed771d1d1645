using System.Text;
using System.Text.Json.Nodes;
using WaterScript.Syntax.Formatting;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>What happens while somebody types: findings come and go, fixes are made, names change in all files.</summary>
public sealed class TypingTests : Workshop
{
    private const string Pushes = """{ "workspace": { "workspaceEdit": { "documentChanges": true } } }""";

    private const string Slips = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1; flow 10 L/min; area 60 m2 }
        zone beds { output 2; flow 8 L/min; area 60 m2 }
        schedule morning { every day; start at 06:00; steps { water lawm for 10 min; water beds for 10min } }

        """;

    [Fact]
    public void Two_slips_are_found_and_fixed_one_after_the_other()
    {
        using var editor = new EditorClient(Folder);
        editor.Open("site.water", Slips);
        Assert.Equal(["unknown-name", "unusual-form"], editor.Findings("site.water").Select(finding => (string)finding!["code"]!).Order());
        var text = Apply(Slips, ActionsAt(editor, 3, 62).First(action => (string?)action!["title"] == "Write lawn"), editor);
        editor.Replace("site.water", text);
        Assert.Single(editor.Findings("site.water"));
        var second = ActionsAt(editor, 3, 95).First(action => ((string)action!["title"]!).StartsWith("Write 10 min", StringComparison.Ordinal))!;
        Assert.Equal(editor.VersionOf("site.water"), (int)second["edit"]!["documentChanges"]![0]!["textDocument"]!["version"]!);
        editor.Replace("site.water", text = Apply(text, second, editor));
        Assert.Empty(editor.Findings("site.water"));
        Assert.Equal(Slips.Replace("lawm", "lawn", StringComparison.Ordinal).Replace("10min", "10 min", StringComparison.Ordinal), text);
    }

    /// <summary>Against <c>check --fix</c>, which writes the same fixes to the disk.</summary>
    [Fact]
    public void All_safe_fixes_at_once_are_those_of_a_check()
    {
        Write("site.water", Slips);
        Run("check", "site.water", "--fix");
        using var editor = new EditorClient(Folder);
        editor.Open("site.water", Slips);
        var all = editor.Request("textDocument/codeAction", Range(editor, (0, 0), (0, 0), "source.fixAll"))!.AsArray().Single()!;
        Assert.Equal("Fix all that leaves the watering as it is: 2 in this file", (string?)all["title"]);
        Assert.Equal(Read("site.water"), Apply(Slips, all, editor));
    }

    [Fact]
    public void A_finding_can_be_accepted_in_its_schedule()
    {
        const string text = """
            site garden { timezone Europe/Lisbon; effective 2026-03-01 }
            zone lawn { output 1 }
            schedule night {
              every day
              start at 01:20
              steps { water lawn for 10 min }
            }

            """;
        using var editor = new EditorClient(Folder);
        editor.Open("site.water", text);
        Assert.Contains("skipped-time", editor.Findings("site.water").Select(finding => (string)finding!["code"]!));
        var accept = ActionsAt(editor, 4, 12).First(action => (string?)action!["title"] == "Accept skipped-time here, because …")!;
        var accepted = Apply(text, accept, editor).Replace("because \"\"", "because \"it may\"", StringComparison.Ordinal);
        Assert.Contains("schedule night {\n  accept skipped-time because", accepted, StringComparison.Ordinal);
        editor.Replace("site.water", accepted);
        Assert.DoesNotContain("skipped-time", editor.Findings("site.water").Select(finding => (string)finding!["code"]!));
    }

    /// <summary>Against the formatter itself.</summary>
    [Fact]
    public void The_layout_is_that_of_format()
    {
        using var editor = new EditorClient(Folder);
        foreach (var path in Repository.FilesUnder("tests/Cases/formatter").Where(path => path.EndsWith(".water", StringComparison.Ordinal))
            .Concat(Repository.ExampleFiles))
        {
            var text = Repository.Read(path);
            editor.Open("site.water", text);
            var edits = editor.Request("textDocument/formatting", editor.Of("site.water"))!.AsArray();
            Assert.Equal((path, Formatter.Format(SourceText.From("-", text), [])?.Text ?? text.TrimStart('\uFEFF')),
                (path, Applied(text, edits).TrimStart('\uFEFF')));
        }
    }

    [Fact]
    public void A_closing_brace_lays_out_its_block_alone()
    {
        const string text = "site   a { timezone Europe/Lisbon; effective 2026-03-01 }\nzone    lawn {\noutput 1\n}\n";
        using var editor = new EditorClient(Folder);
        editor.Open("site.water", text);
        var edits = editor.Request("textDocument/onTypeFormatting", editor.At("site.water", 3, 1))!.AsArray();
        var laidOut = Applied(text, edits);
        Assert.StartsWith("site   a {", laidOut, StringComparison.Ordinal);
        Assert.DoesNotContain("zone    lawn", laidOut, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_changes_in_all_files_of_its_site()
    {
        Write("zones.water", "zone lawn { output 1 }\nzone beds { output 2 }\n");
        const string site = "include \"zones.water\"\nsite garden { timezone Europe/Lisbon; effective 2026-03-01 }\n"
            + "schedule a { every day; start at 06:00; steps { water lawn, beds for 10 min } }\n";
        using var editor = new EditorClient(Folder);
        editor.Open("site.water", site);
        var at = editor.At("site.water", 2, site.Split('\n')[2].IndexOf("lawn", StringComparison.Ordinal) + 1);
        at["newName"] = "turf";
        var changes = editor.Request("textDocument/rename", at)!["documentChanges"]!.AsArray();
        Assert.Equal([("site.water", 1), ("zones.water", 1)], changes.Select(file =>
            (Path.GetFileName((string)file!["textDocument"]!["uri"]!), file["edits"]!.AsArray().Count)));
        at["newName"] = "beds";
        Assert.Contains("zone beds already exists (zones.water:2)",
            (string)editor.Answer("textDocument/rename", (JsonObject)at.DeepClone())["error"]!["message"]!, StringComparison.Ordinal);
        at["newName"] = "Lawn 2";
        Assert.Equal("\"Lawn 2\" is not a name: small letters, digits, hyphens",
            (string)editor.Answer("textDocument/rename", (JsonObject)at.DeepClone())["error"]!["message"]!);
        var definition = editor.Request("textDocument/definition",
            editor.At("site.water", 2, site.Split('\n')[2].IndexOf("beds", StringComparison.Ordinal)))![0]!;
        Assert.Equal(("zones.water", 1, 5), (Path.GetFileName((string)definition["uri"]!), (int)definition["range"]!["start"]!["line"]!,
            (int)definition["range"]!["start"]!["character"]!));
    }

    [Fact]
    public void What_is_typed_in_an_include_counts_before_it_is_saved()
    {
        Write("zones.water", "zone lawn { output 1 }\n");
        const string site = "include \"zones.water\"\nsite garden { timezone Europe/Lisbon; effective 2026-03-01 }\n"
            + "schedule a { every day; start at 06:00; steps { water lawn for 10 min } }\n";
        using var editor = new EditorClient(Folder, capabilities: Pushes);
        editor.Open("site.water", site);
        editor.WaitFor("textDocument/publishDiagnostics", IsOf("site.water", hasErrors: false));
        editor.Open("zones.water", "zone lawns { output 1 }\n");
        editor.WaitFor("textDocument/publishDiagnostics", IsOf("site.water", hasErrors: true));
        editor.Change("zones.water", (0, 9), (0, 10), "");
        var published = editor.WaitFor("textDocument/publishDiagnostics", IsOf("site.water", hasErrors: false));
        Assert.Equal(1, (int)published["version"]!);
        editor.Replace("zones.water", "");
        editor.WaitFor("textDocument/publishDiagnostics", IsOf("site.water", hasErrors: true));
        editor.Notify("textDocument/didClose", editor.Of("zones.water"));
        editor.WaitFor("textDocument/publishDiagnostics", IsOf("site.water", hasErrors: false));
    }

    /// <summary>Also where the check takes so long that what reading finds is shown before it.</summary>
    [Theory]
    [InlineData(200)]
    [InlineData(0)]
    public void A_name_that_is_being_typed_is_no_mistake_yet(int quick)
    {
        using var editor = new EditorClient(Folder, capabilities: Pushes, quick: TimeSpan.FromMilliseconds(quick));
        editor.Open("site.water", Good);
        editor.WaitFor("textDocument/publishDiagnostics", IsOf("site.water", hasErrors: false));
        var line = Good.Split('\n')[3];
        var place = line.IndexOf("lawn", StringComparison.Ordinal) + 4;
        editor.Change("site.water", (3, place - 1), (3, place), "");
        static bool IsUnknown(JsonNode? finding) => (string?)finding!["code"] == "unknown-name";
        JsonArray Next(Func<JsonArray, bool> isExpected) => editor.WaitFor("textDocument/publishDiagnostics", parameters =>
            (int?)parameters["version"] == 2 && isExpected(parameters["diagnostics"]!.AsArray()))["diagnostics"]!.AsArray();
        Assert.DoesNotContain(Next(_ => true), IsUnknown);
        Assert.Single(Next(findings => findings.Any(IsUnknown)), IsUnknown);
    }

    [Fact]
    public void Places_beyond_the_first_plane_count_two()
    {
        using var editor = new EditorClient(Folder);
        var text = "site garden \"\U0001F331\U0001F331\" { timezone Europe/Lisbon; effective 2026-03-01 }\r\nzone lawn \"\U0001F331\" { output 1; flow 3 }\r\n";
        editor.Open("site.water", text);
        editor.Change("site.water", (1, 13), (1, 13), "x");
        var finding = editor.Findings("site.water").First(each => (string?)each!["code"] == "wrong-unit")!;
        var line = text.Split("\r\n")[1].Insert(13, "x");
        Assert.Equal(line.IndexOf('3', StringComparison.Ordinal), (int)finding["range"]!["start"]!["character"]!);
    }

    private static Func<JsonNode, bool> IsOf(string name, bool hasErrors) => parameters => ((string)parameters["uri"]!)
        .EndsWith("/" + name, StringComparison.Ordinal)
        && parameters["diagnostics"]!.AsArray().Any(finding => (int)finding!["severity"]! == 1) == hasErrors;

    private static JsonArray ActionsAt(EditorClient editor, int line, int character) =>
        editor.Request("textDocument/codeAction", Range(editor, (line, character), (line, character)))!.AsArray();

    private static JsonObject Range(EditorClient editor, (int, int) from, (int, int) to, string? only = null) => new()
    {
        ["textDocument"] = new JsonObject { ["uri"] = editor.UriOf("site.water") },
        ["range"] = new JsonObject { ["start"] = EditorClient.Place(from), ["end"] = EditorClient.Place(to) },
        ["context"] = only is null ? new JsonObject { ["diagnostics"] = new JsonArray() }
            : new JsonObject { ["diagnostics"] = new JsonArray(), ["only"] = new JsonArray(only) },
    };

    private static string Apply(string text, JsonNode? action, EditorClient editor)
    {
        var file = action!["edit"]!["documentChanges"]!.AsArray().Single(change => (string?)change!["textDocument"]!["uri"] == editor.UriOf("site.water"))!;
        return Applied(text, file["edits"]!.AsArray());
    }

    /// <summary>Makes edits as an editor does, by the protocol.</summary>
    private static string Applied(string text, JsonArray edits)
    {
        var result = new StringBuilder(text);
        foreach (var edit in edits.Select(edit => (Start: OffsetOf(text, edit!["range"]!["start"]!), End: OffsetOf(text, edit["range"]!["end"]!),
            Text: (string)edit["newText"]!))
            .OrderByDescending(edit => edit.Start))
            result.Remove(edit.Start, edit.End - edit.Start).Insert(edit.Start, edit.Text);
        return result.ToString();
    }

    private static int OffsetOf(string text, JsonNode place)
    {
        var (line, offset) = ((int)place["line"]!, 0);
        for (; line > 0 && offset < text.Length; offset++)
        {
            if (text[offset] == '\n' || (text[offset] == '\r' && (offset + 1 >= text.Length || text[offset + 1] != '\n'))) line--;
        }

        return Math.Min(text.Length, offset + (int)place["character"]!);
    }
}
