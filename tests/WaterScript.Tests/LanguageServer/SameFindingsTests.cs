using System.Globalization;
using System.Text.Json.Nodes;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.LanguageServer;

/// <summary>
/// The server finds what <c>check --report json</c> finds, which is another way through the program: from the disk, at once. That holds when a file is opened,
/// and after any row of edits.
/// </summary>
public sealed class SameFindingsTests : Workshop
{
    private static readonly string[] Inserted =
        ["", " ", "\n", "\r\n", "}", "{", "\"", "#", "\U0001F331", "é", "12 min", "water ", "zone x { output 9 }\n", "\t", ";", "+", "on mon\n", "accept "];

    /// <summary>Steps of the fuzz: <c>WATERSCRIPT_EDITS=10000</c> does that many.</summary>
    private static int Steps => int.TryParse(Environment.GetEnvironmentVariable("WATERSCRIPT_EDITS"), NumberStyles.None, CultureInfo.InvariantCulture,
        out var steps) ? steps : 300;

    public static TheoryData<string> Files => [.. Repository.ExampleFiles];

    [Theory]
    [MemberData(nameof(Files))]
    public void An_example_has_the_findings_of_a_check(string path)
    {
        foreach (var file in Repository.ExampleFiles) Write(file, Repository.Read(file));
        using var editor = new EditorClient(Folder);
        foreach (var root in RootsOf(path)) editor.Open(root, Repository.Read(root));
        editor.Open(path, Repository.Read(path));
        foreach (var root in RootsOf(path)) Assert.Equal(Checked(root, path), Shown(editor, path));
    }

    [Fact]
    public void Each_case_has_the_findings_of_a_check()
    {
        var cases = Repository.FilesUnder("tests/Cases").Where(path => path.EndsWith(".water", StringComparison.Ordinal)
            && !path.Contains("/fuzz/", StringComparison.Ordinal)).ToList();
        Assert.True(cases.Count > 200, cases.Count.ToString(CultureInfo.InvariantCulture));
        using var editor = new EditorClient(Folder);
        foreach (var (index, path) in cases.Index())
        {
            // Each in a folder of its own, so that none includes another.
            var name = string.Create(CultureInfo.InvariantCulture, $"case{index}/site.water");
            var text = Repository.Read(path);
            Write(name, text);
            editor.Open(name, text);
            Assert.Equal((path, Checked(name, name)), (path, Shown(editor, name)));
            editor.Notify("textDocument/didClose", editor.Of(name));
        }
    }

    [Fact]
    public void After_any_edits_the_findings_are_those_of_a_check()
    {
        string[] sources = [.. Repository.ExampleFiles];
        var random = new Random(2026);
        using var editor = new EditorClient(Folder);
        Write("site.water", "");
        editor.Open("site.water", "");
        var text = "";
        for (var step = 0; step < Steps; step++)
        {
            if (step % 60 == 0) editor.Replace("site.water", text = Repository.Read(sources[random.Next(sources.Length)]));
            text = Edited(editor, text, random);
            if (step % 4 != 0) continue;
            Write("site.water", text);
            Assert.Equal((step, Checked("site.water", "site.water")), (step, Shown(editor, "site.water")));
        }
    }

    /// <summary>Deletes a little and inserts something, as an editor says it.</summary>
    private static string Edited(EditorClient editor, string text, Random random)
    {
        var start = InsideOfNoPair(text, random.Next(text.Length + 1));
        var end = InsideOfNoPair(text, Math.Min(text.Length, start + random.Next(6)));
        var inserted = Inserted[random.Next(Inserted.Length)];
        editor.Change("site.water", PlaceOf(text, start), PlaceOf(text, end), inserted);
        return text[..start] + inserted + text[end..];
    }

    private static int InsideOfNoPair(string text, int offset) =>
        offset > 0 && offset < text.Length && (char.IsLowSurrogate(text[offset]) || (text[offset] == '\n' && text[offset - 1] == '\r')) ? offset - 1 : offset;

    /// <summary>The protocol: a line ends with LF, CR LF or CR.</summary>
    private static (int Line, int Character) PlaceOf(string text, int offset)
    {
        var (line, start) = (0, 0);
        for (var i = 0; i < offset; i++)
        {
            if (text[i] is not ('\n' or '\r') || (text[i] == '\r' && i + 1 < text.Length && text[i + 1] == '\n')) continue;
            (line, start) = (line + 1, i + 1);
        }

        return (line, offset - start);
    }

    private static IEnumerable<string> RootsOf(string path) =>
        !Repository.Read(path).Contains("\nsite ", StringComparison.Ordinal) && path.Contains("/park/", StringComparison.Ordinal)
            ? ["examples/park/park.water"]
            : [path];

    /// <summary>What a check of a site finds in one of its files.</summary>
    private string Checked(string root, string path)
    {
        var report = JsonNode.Parse(Run("check", root, "--report", "json").Output)!;
        return string.Join('\n', report["sites"]![0]!["findings"]!.AsArray().Where(finding => (string?)finding!["place"]!["file"] == path).Select(finding =>
        {
            var place = finding!["place"]!;
            var severity = (string?)finding["severity"] switch { "error" => 1, "warning" => 2, _ => 3 };
            return string.Create(CultureInfo.InvariantCulture,
                $"{severity} {(string?)finding["rule"]} {(int)place["line"]! - 1}:{(int)place["column"]! - 1} {(string?)finding["heading"]}");
        }));
    }

    private static string Shown(EditorClient editor, string path) => string.Join('\n', editor.Findings(path).Select(finding =>
    {
        var heading = ((string)finding!["message"]!).Split('\n')[0];
        var start = finding["range"]!["start"]!;
        return string.Create(CultureInfo.InvariantCulture,
            $"{(int)finding["severity"]!} {(string?)finding["code"]} {(int)start["line"]!}:{(int)start["character"]!} {heading}");
    }));
}
