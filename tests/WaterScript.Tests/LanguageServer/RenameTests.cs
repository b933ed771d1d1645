using System.Text;
using System.Text.Json.Nodes;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>
/// A schedule that is called by another name keeps its events in a calendar. The calendar that <c>compile</c> writes is the judge: its events have the same
/// identities before and after.
/// </summary>
public sealed class RenameTests : Workshop
{
    private const string Site = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1; flow 10 L/min; area 60 m2 }
        # morning comes first, good-morning is another word
        schedule morning "Early" {
          every day
          start at 06:00
          steps { water lawn for 10 min }
        }
        schedule late { every day; start after morning + 10 min; steps { water lawn for 5 min } }

        """;

    private const string Asks = """{ "workspace": { "workspaceEdit": { "documentChanges": true, "changeAnnotationSupport": {} } } }""";

    [Fact]
    public void A_schedule_keeps_its_events()
    {
        using var editor = Opened(Site);
        var before = Events(Site);
        var renamed = Renamed(editor, Site, "schedule morning", "dawn");
        Assert.Contains("schedule dawn \"Early\" {\n  formerly morning\n  every day", renamed, StringComparison.Ordinal);
        Assert.Contains("start after dawn", renamed, StringComparison.Ordinal);
        Assert.Equal(before, Events(renamed));
        var again = Renamed(editor, renamed, "schedule dawn", "sunup");
        Assert.Contains("schedule sunup \"Early\" {\n  formerly morning\n", again, StringComparison.Ordinal);
        Assert.Equal(before, Events(again));
        Assert.Equal(Site, Renamed(editor, again, "schedule sunup", "morning"));
    }

    [Fact]
    public void A_schedule_on_one_line_keeps_its_former_name_there()
    {
        using var editor = Opened(Site);
        Assert.Contains("schedule second { formerly late; every day;", Renamed(editor, Site, "schedule late", "second"), StringComparison.Ordinal);
    }

    [Fact]
    public void Nobody_has_to_keep_it()
    {
        using var editor = Opened(Site, settings: """{ "rename": { "formerly": "never" } }""");
        Assert.DoesNotContain("formerly", Renamed(editor, Site, "schedule morning", "dawn"), StringComparison.Ordinal);
    }

    [Fact]
    public void It_can_wait_for_a_yes()
    {
        using var editor = Opened(Site, Asks, """{ "rename": { "formerly": "ask" } }""");
        var edit = Rename(editor, Site, "schedule morning", "dawn")["result"]!;
        var kept = edit["documentChanges"]![0]!["edits"]!.AsArray().Single(each => ((string)each!["newText"]!).Contains("formerly", StringComparison.Ordinal))!;
        Assert.True((bool)edit["changeAnnotations"]![(string)kept["annotationId"]!]!["needsConfirmation"]!);
        Assert.All(edit["documentChanges"]![0]!["edits"]!.AsArray().Where(each => each != kept), each => Assert.Null(each!["annotationId"]));
    }

    [Fact]
    public void A_name_that_another_schedule_had_is_refused()
    {
        var site = Site.Replace("schedule late {", "schedule late { formerly dusk;", StringComparison.Ordinal);
        using var editor = Opened(site);
        Assert.StartsWith("morning stays: it brings an error: ", (string)Rename(editor, site, "schedule morning", "dusk")["error"]!["message"]!,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Comments_that_say_the_old_name_are_counted()
    {
        using var editor = Opened(Site);
        _ = Rename(editor, Site, "schedule morning", "dawn");
        Assert.Equal("1 comment still says morning", (string?)editor.WaitFor("window/showMessage", _ => true)["message"]);
    }

    private EditorClient Opened(string text, string? capabilities = null, string settings = "{}")
    {
        var editor = new EditorClient(Folder, capabilities: capabilities, settings: settings);
        editor.Open("site.water", text);
        return editor;
    }

    private static JsonNode Rename(EditorClient editor, string text, string before, string name)
    {
        var lines = text.Split('\n');
        var line = Array.FindIndex(lines, each => each.StartsWith(before, StringComparison.Ordinal));
        var at = editor.At("site.water", line, before.Length - 1);
        at["newName"] = name;
        return editor.Answer("textDocument/rename", at);
    }

    /// <summary>Renames as an editor does, and goes on with that text.</summary>
    private static string Renamed(EditorClient editor, string text, string before, string name)
    {
        var edits = Rename(editor, text, before, name)["result"]!["documentChanges"]![0]!["edits"]!.AsArray();
        int Offset(JsonNode place) => text.Split('\n').Take((int)place["line"]!).Sum(line => line.Length + 1) + (int)place["character"]!;
        var result = new StringBuilder(text);
        foreach (var (from, to, with) in edits.Select(edit => (Offset(edit!["range"]!["start"]!), Offset(edit["range"]!["end"]!), (string)edit["newText"]!))
            .OrderByDescending(edit => edit.Item1)) result.Remove(from, to - from).Insert(from, with);
        editor.Replace("site.water", result.ToString());
        return result.ToString();
    }

    /// <summary>The identities of all events of the calendar of a site.</summary>
    private string Events(string text)
    {
        Write("calendar.water", text);
        Assert.Equal(0, Run("compile", "calendar.water", "--to", "icalendar", "-o", "calendar.ics").ExitCode);
        var events = Read("calendar.ics").Split('\n').Where(line => line.StartsWith("UID", StringComparison.Ordinal)).Order(StringComparer.Ordinal).ToList();
        Assert.NotEmpty(events);
        return string.Join('\n', events);
    }
}
