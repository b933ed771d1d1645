using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>
/// What the extension of an editor asks beyond the protocol of all editors. Times and amounts are those that <c>next</c> shows of the same example for the
/// same date; texts are those of the commands, which go another way through the program.
/// </summary>
public sealed partial class NightTests : Workshop
{
    private const string Morning = "2026-05-04T09:00:00Z";
    private const string Evening = "2026-05-04T20:30:00Z";
    private const string Takes = """{ "experimental": { "waterscript": { "checked": true } } }""";

    [Fact]
    public void The_server_answers_what_the_extension_asks()
    {
        using var editor = new EditorClient(Folder);
        var answered = editor.Greeting["capabilities"]!["experimental"]!["waterscript"]!["requests"]!.AsArray().Select(method => (string)method!);
        var asked = Asked().Matches(Repository.Read("src/WaterScript.VSCode/src/protocol.ts")).Select(match => match.Groups["method"].Value);
        Assert.Equal(asked.Order(StringComparer.Ordinal), answered.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_night_of_the_terraces()
    {
        using var editor = Opened("examples/terraces.water", Morning);
        var night = editor.Request("waterscript/night", editor.Of("site.water"))!;
        Assert.Equal(("2026-05-04", "Mon 4 May 2026", At(20, 0), At(23, 0)),
            ((string?)night["date"], (string?)night["title"], (int)night["from"]!, (int)night["until"]!));
        Assert.Equal(
            [
                $"29 lemons: Mon 4 May 20:59 to 21:47, 672 L {At(20, 59)}-{At(21, 47)}",
                $"30 herbs: Mon 4 May 21:52:17 to 22:05:58, 69 L {At(21, 52, 17)}-{At(21, 56, 8)} {At(22, 2, 8)}-{At(22, 5, 58)}",
            ],
            Lines(night).Where(line => line.StartsWith("29 ", StringComparison.Ordinal) || line.StartsWith("30 ", StringComparison.Ordinal)));
        Assert.Equal(["lemons", "vines", "water upper for 1 h", "evening"],
            Lines(night).Where(line => line.EndsWith($" {At(20, 59)}-{At(21, 47)}", StringComparison.Ordinal)
                || line.Contains("1701 L", StringComparison.Ordinal))
                .Select(line => line[(line.IndexOf(' ', StringComparison.Ordinal) + 1)..line.IndexOf(':', StringComparison.Ordinal)]));
    }

    [Fact]
    public void Many_short_passes_are_a_comb()
    {
        using var editor = Opened("examples/nursery.water", "2026-11-25T08:00:05Z");
        var night = editor.Request("waterscript/night", editor.Of("site.water"))!;
        var mist = night["lines"]!.AsArray().Single(line => (int)line!["line"]! == 37)!;
        Assert.True((bool)mist["isComb"]!);
        Assert.Single(mist["runs"]!.AsArray());
        Assert.Contains("95 times", (string)mist["text"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void Bars_of_the_chart_say_the_lines_of_their_steps()
    {
        using var editor = Opened("examples/terraces.water", Morning);
        var parameters = editor.Of("site.water");
        parameters["date"] = "2026-05-06";
        var page = (string)editor.Request("waterscript/picture", parameters)!["html"]!;
        var runs = Bars().Matches(page).Select(match => match.Groups["line"].Value).ToList();
        var source = Repository.Read("examples/terraces.water").Split('\n');
        // Two zones at once, five pieces of a cycle, two more at once, and one: lines 48, 50, 51 and 53.
        Assert.Equal(["48", "48", "51", "51", "51", "51", "51", "53"], runs.Order(StringComparer.Ordinal));
        Assert.All(runs, line => Assert.StartsWith("water ", source[int.Parse(line, null) - 1].Trim(), StringComparison.Ordinal));
        Assert.Contains("Wed 6", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Bars_of_a_step_in_another_file_say_which()
    {
        Write("steps.water", "sequence round {\n  water lawn for 10 min\n}\n");
        Write("site.water", "include \"steps.water\"\nsite garden { timezone Europe/Lisbon; effective 2026-03-01 }\nzone lawn { output 1 }\n"
            + "schedule a { every day; start at 06:00; steps { run round } }\n");
        using var editor = new EditorClient(Folder, Morning);
        editor.Open("site.water", Read("site.water"));
        var page = (string)editor.Request("waterscript/picture", editor.Of("site.water"))!["html"]!;
        Assert.Equal([$"{editor.UriOf("steps.water")}#2"], Bars().Matches(page).Select(match => match.Groups["line"].Value).Distinct());
    }

    [Fact]
    public void Nights_to_choose()
    {
        using var editor = Opened("examples/terraces.water", Morning);
        var nights = editor.Request("waterscript/nights", editor.Of("site.water"))!.AsArray();
        // Each Monday, Wednesday and Friday, but 10 June, an exception of the file.
        Assert.Equal(["2026-05-04", "2026-05-06", "2026-05-08", "2026-05-11"], nights.Take(4).Select(night => (string?)night!["date"]));
        Assert.DoesNotContain("2026-06-10", nights.Select(night => (string?)night!["date"]));
        Assert.Equal("20:59 to 22:46:41, 1701 L", (string?)nights[0]!["text"]);
        Assert.Equal(60, nights.Count);
    }

    [Theory]
    [InlineData("2026-05-04T09:00:00Z", "Upper terraces: next 20:59, 1701 L")]
    [InlineData("2026-05-05T09:00:00Z", "Upper terraces: next Wed 6 May 21:01, 1701 L")]
    [InlineData(Evening, "Upper terraces: watering to 22:46:41")]
    public void The_line_at_the_foot_of_the_window(string now, string words)
    {
        using var editor = Opened("examples/terraces.water", now);
        _ = editor.Findings("site.water");
        var status = editor.Request("waterscript/status", editor.Of("site.water"))!;
        Assert.Equal(words, (string?)status["text"]);
        var verdict = Run("check", "site.water").Output.TrimEnd('\n');
        Assert.EndsWith(((string)status["tooltip"]!).ReplaceLineEndings("\n"), verdict, StringComparison.Ordinal);
        Assert.NotEqual("", (string?)status["tooltip"]);
    }

    [Fact]
    public void The_line_at_the_foot_of_the_window_counts_errors_and_sites()
    {
        Write("zones.water", "zone lawn { output 1 }\n");
        Write("b.water", "include \"zones.water\"\nsite b { timezone Europe/Lisbon; effective 2026-03-01 }\n");
        const string broken = "include \"zones.water\"\nsite a \"A\" { timezone Europe/Lisbon; effective 2026-03-01 }\n"
            + "schedule x { every day; start at 06:00; steps { water lawm for 1 min; water bedd for 1 min } }\n";
        Write("a.water", broken);
        using var editor = new EditorClient(Folder, Morning);
        editor.Open("a.water", broken);
        editor.Open("zones.water", "zone lawn { output 1 }\n");
        editor.Open("alone.water", "zone beds { output 1 }\n");
        var errors = editor.Findings("a.water").Count(finding => (int)finding!["severity"]! == 1);
        Assert.True(errors > 1);
        Assert.Equal($"A: {errors} errors", StatusOf(editor, "a.water"));
        Assert.Equal("part of 2 sites", StatusOf(editor, "zones.water"));
        Assert.Equal("no site includes this file", StatusOf(editor, "alone.water"));
        Assert.Null(editor.Request("waterscript/night", editor.Of("a.water")));
        Assert.Null(editor.Request("waterscript/picture", editor.Of("a.water")));
        Assert.Null(editor.Request("waterscript/nights", editor.Of("a.water")));
        Assert.Null(editor.Request("waterscript/list", editor.Of("a.water")));
    }

    [Fact]
    public void Texts_are_those_of_the_commands()
    {
        using var editor = Opened("examples/terraces.water", Morning);
        var parameters = editor.Of("site.water");
        (parameters["zone"], parameters["date"]) = ("lemons", "2026-06-10");
        Assert.Equal(Run("why", "site.water", "lemons", "2026-06-10").Output, (string?)editor.Request("waterscript/why", parameters)!["text"]);
        Assert.Equal(Run("explain", "short-run").Output,
            (string?)editor.Request("waterscript/explain", new JsonObject { ["rule"] = "short-run" })!["text"]);
        Assert.Equal(-32602, (int)editor.Answer("waterscript/explain", new JsonObject { ["rule"] = "no-rule" })["error"]!["code"]!);
        parameters["zone"] = "lemon";
        Assert.Equal(-32602, (int)editor.Answer("waterscript/why", (JsonObject)parameters.DeepClone())["error"]!["code"]!);
        foreach (var date in (string[])["2026-13-01", "0000-01-01", "9999-12-31", "tomorrow", ""])
        {
            parameters["date"] = date;
            Assert.Equal(-32602, (int)editor.Answer("waterscript/night", (JsonObject)parameters.DeepClone())["error"]!["code"]!);
        }
    }

    [Fact]
    public void A_list_of_what_runs()
    {
        using var editor = Opened("examples/terraces.water", Morning);
        var lines = ((string)editor.Request("waterscript/list", editor.Of("site.water"))!["text"]!).Split('\n');
        Assert.Equal("Upper terraces, passes of Mon 4 May 2026, Europe/Lisbon", lines[0]);
        Assert.Equal("20:59 to 21:47 | Lemon terrace | 48 min | 672 L | evening, step 1.1 (site.water:48)", Columns().Replace(lines[1], " | "));
        Assert.Equal(8, lines.Count(line => line.Contains("evening, step", StringComparison.Ordinal)));
    }

    [Fact]
    public void Names_to_ask_about()
    {
        using var editor = Opened("examples/terraces.water", Morning);
        var names = editor.Request("waterscript/names", editor.Of("site.water"))!;
        Assert.Contains("lemons Lemon terrace", names["zones"]!.AsArray().Select(zone => $"{(string?)zone!["name"]} {(string?)zone["label"]}"));
        Assert.DoesNotContain("lift", names["zones"]!.AsArray().Select(zone => (string?)zone!["name"]));
        var rules = names["rules"]!.AsArray().Select(rule => (string?)rule!["name"]).ToList();
        Assert.Equal(Run("explain").Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split(' ')[0]), rules);
        Assert.Equal(rules.Count, editor.Request("waterscript/names", editor.Of("never-opened.water"))!["rules"]!.AsArray().Count);
    }

    [Fact]
    public void A_check_is_said_to_those_who_take_it_in()
    {
        using var editor = new EditorClient(Folder, Morning, capabilities: Takes);
        editor.Open("site.water", Good);
        editor.WaitFor("waterscript/checked", parameters => (string?)parameters["textDocument"]!["uri"] == editor.UriOf("site.water"));
        editor.Change("site.water", (0, 0), (0, 0), "# a remark\n");
        editor.WaitFor("waterscript/checked", parameters => (string?)parameters["textDocument"]!["uri"] == editor.UriOf("site.water"));
    }

    private static string? StatusOf(EditorClient editor, string path) => (string?)editor.Request("waterscript/status", editor.Of(path))!["text"];

    private static int At(int hour, int minute, int second = 0) => ((((hour - 12) * 60) + minute) * 60) + second;

    private static IEnumerable<string> Lines(JsonNode night) => night["lines"]!.AsArray().Select(line =>
        $"{(int)line!["line"]! + 1} {(string?)line["text"]} {string.Join(' ', line["runs"]!.AsArray().Select(run => $"{(int)run![0]!}-{(int)run[1]!}"))}");

    private EditorClient Opened(string path, string now)
    {
        Write("site.water", Repository.Read(path));
        var editor = new EditorClient(Folder, now);
        editor.Open("site.water", Repository.Read(path));
        return editor;
    }

    [GeneratedRegex("'(?<method>waterscript/(?!checked)[a-z]+)'")]
    private static partial Regex Asked();

    [GeneratedRegex("<a class=\"run\"[^>]* data-line=\"(?<line>[^\"$]*)\"")]
    private static partial Regex Bars();

    [GeneratedRegex(" {2,}")]
    private static partial Regex Columns();
}
