using System.Text;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Tests.Documentation;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.Timetables.Deployed;

/// <summary>A timetable that is out there may be anything: it is refused in words, with the place, and never takes more than a little memory.</summary>
public class HostileTimetableTests
{
    private const string Garden = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn "Lawn" { output 1; flow 10 L/min }
        zone beds "Beds" { output 2 }
        schedule morning { every day; start at 06:00; steps { water lawn for 20 min; water beds for 5 min } }

        """;

    private const string FirstRun = "  - {run: 1, ";

    private static readonly string Good = Yaml();

    /// <summary>What is replaced, by what, the line from 1 of the problem, and what it says.</summary>
    public static TheoryData<string, string, int, string> Wrong => new()
    {
        { "waterscript: 1", "waterscript: 2", 1, "this form of a timetable is not known" },
        { "waterscript: 1", "other: 1", 1, "this is not a timetable of waterscript" },
        { "waterscript: 1\n", "waterscript: 1\nwaterscript: 1\n", 4, "description of the site was changed" },
        { "site:", "site: &a", 2, "anchors and aliases are not read" },
        { "site:", "site: !!map", 2, "tags are not read" },
        { "label: \"Garden\"", "label: *a", 4, "anchors and aliases are not read" },
        { "label: \"Garden\"", "label: \"Yard\"", 3, "the description of the site was changed after it was compiled" },
        { "flow_l_per_min: 10", "flow_l_per_min: 11", 3, "the description of the site was changed after it was compiled" },
        { "flow_l_per_min: 10", "flow_l_per_min: much", 21, "flow_l_per_min is not a number from 0 to" },
        { "name: beds", "name: lawn", 17, "two are called \"lawn\"" },
        { "name: beds", "name: beds\n    name: beds", 24, "\"name\" stands here twice" },
        { "from_epoch: ", "from_epoch: 1", 9, "not the moments that from_epoch and until_epoch count" },
        { "until: \"2026-03-08", "until: \"2026-02-30", 9, "from or until is not a time like" },
        { "until: \"2026-03-08", "until: \"2226-03-08", 9, "not the moments that" },
        { FirstRun, "  - {run: 0, ", 43, "run is \"0\", not a whole number" },
        { FirstRun, "  - {run: \"1\", ", 43, "run is \"1\", not a whole number" },
        { FirstRun, "  - {run: 7, ", 44, "is not above that of the one before it" },
        { FirstRun, "  - {run: 1, run: 1, ", 43, "\"run\" stands here twice" },
        { FirstRun, "  - {run: 1, more: 1, ", 43, "runs have no \"more\"" },
        { FirstRun, "  - {run: [1], ", 43, "run is not a value" },
        { FirstRun, "  - [run, 1]\n" + FirstRun, 43, "an entry of runs is not a map" },
        { FirstRun + "from: \"2026-03-01T06:00:00+00:00\", ", FirstRun, 43, "from is missing" },
        { FirstRun + "from: \"2026-03-01T06:00:00+00:00\"", FirstRun + "from: \"2026-03-01T06:00:00\"", 43, "not a time like" },
        { FirstRun + "from: \"2026-03-01T06:00:00+00:00\"", FirstRun + "from: \"99999-03-01T06:00:00+00:00\"", 43, "not a time like" },
        {
            FirstRun + "from: \"2026-03-01T06:00:00+00:00\"",
            FirstRun + "from: \"2026-03-01T06:10:00+00:00\"",
            0,
            "the runs were changed after they were compiled"
        },
        { FirstRun + "from: \"2026-03-01T06:00:00+00:00\"", FirstRun + "from: \"2026-03-01T06:20:00+00:00\"", 43, "to is not after from" },
        {
            "to: \"2026-03-01T06:20:00+00:00\", zone: lawn",
            "to: \"2026-03-01T06:21:00+00:00\", zone: lawn",
            0,
            "the runs were changed after they were compiled"
        },
        {
            "zone: lawn, schedule: morning, day: \"2026-03-01\"",
            "zone: lawn, schedule: morning, day: \"2060-03-01\"",
            43,
            "day is \"2060-03-01\", which is far from pass_start"
        },
        { "pass_start: \"2026-03-01", "pass_start: \"2026-02-28", 43, "pass_start is \"2026-02-28T06:00:00+00:00\", which is not within the time" },
        { "pass_start: \"2026-03-01", "pass_start: \"2026-03-02", 43, "pass_start is after from" },
        { "zone: lawn, schedule: morning, day: \"2026-03-01\"", "zone: lown, schedule: morning, day: \"2026-03-01\"", 43, "no zone is called \"lown\"" },
        {
            "zone: lawn, schedule: morning, day: \"2026-03-01\"",
            "zone: lawn, schedule: mourning, day: \"2026-03-01\"",
            43,
            "no schedule is called \"mourning\""
        },
        { "start: 1, pass: 1, pass_start", "start: 0, pass: 1, pass_start", 43, "this is one pass (--run)" },
        {
            "- {opening: 1, from: \"2026-03-01T06:00:00+00:00\"",
            "- {opening: 1, from: \"2026-03-01T06:01:00+00:00\"",
            0,
            "the openings were changed after they were compiled"
        },
        { "zone: lawn, runs: [1]", "zone: lawn, runs: [1, 2]", 0, "the openings were changed after they were compiled" },
        { "zone: lawn, runs: [1]", "gnome: lawn, runs: [1]", 0, "openings have no \"gnome\"" },
        { "do: open, opening: 1", "do: close, opening: 1", 0, "the switchings were changed after they were compiled" },
        { "output: 1, do: open, opening: 1", "output: 9, do: open, opening: 1", 0, "there is no output \"9\"" },
        { "end: {runs: 14", "end: {runs: 13", 0, "there are 14 runs, and not as many as this record says" },
        { "end: {", "totals: []\nend: {", 0, "\"totals\" is not what comes here" },
        { FirstRun, "  - {run: 1\n2, ", 43, "what follows this is not YAML" },
        { "label: \"Garden\"", @"label: ""\uD800\u0041""", 4, "what follows this is not YAML" },
        { "label: \"Garden\"", @"label: ""\UFFFFFFFF""", 4, "what follows this is not YAML" },
        { "label: \"Garden\"", "label: \"Gar\0den\"", 4, "a character here is one that YAML does not have (U+0000)" },
        { "end: {", "end: {", 0, "" },
    };

    [Theory]
    [MemberData(nameof(Wrong))]
    public void What_is_wrong_is_said_with_its_place(string was, string now, int line, string what)
    {
        var at = Good.IndexOf(was, StringComparison.Ordinal);
        Assert.True(at >= 0, $"{was} is not in the timetable");
        var text = Good[..at] + now + Good[(at + was.Length)..];
        if (what.Length == 0)
        {
            ReadAll(text);
            return;
        }

        var problem = Assert.Throws<DeployedException>(() => ReadAll(text));
        Assert.Contains(what, problem.Message, StringComparison.Ordinal);
        Assert.NotEmpty(problem.Help);
        if (line > 0) Assert.Equal(line, problem.Line);
        Assert.InRange(problem.Line, 1, text.Split('\n').Length);
    }

    [Fact]
    public void A_run_that_is_out_of_order_is_refused()
    {
        var lines = Good.Split('\n').ToList();
        var first = lines.FindIndex(line => line.StartsWith(FirstRun, StringComparison.Ordinal));
        (lines[first], lines[first + 2]) = (
            lines[first + 2].Replace("run: 3,", "run: 1,", StringComparison.Ordinal),
            lines[first].Replace("run: 1,", "run: 3,", StringComparison.Ordinal));
        Assert.Contains(
            "begins before the one above it",
            Assert.Throws<DeployedException>(() => ReadAll(string.Join('\n', lines))).Message,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_cut_off_anywhere_is_refused()
    {
        for (var length = 0; length < Good.Length - 2; length += 97) Assert.Throws<DeployedException>(() => ReadAll(Good[..length]));
        Assert.Throws<DeployedException>(() => ReadAll(Good[..Good.IndexOf("end: {", StringComparison.Ordinal)]));
        Assert.Throws<DeployedException>(() => ReadAll(Good + "---\n" + Good));
        Assert.Throws<DeployedException>(() => ReadAll(Good + "more: 1\n"));
    }

    /// <summary>Each would take gigabytes, or the stack, if it were held or gone into.</summary>
    [Theory]
    [InlineData("[", "")]
    [InlineData("{a: ", "")]
    [InlineData("- ", "")]
    [InlineData("? ", "")]
    [InlineData("x", "label: \"")]
    [InlineData("x\n\n  ", "label: \"")]
    [InlineData("x ", "label: ")]
    [InlineData("  line\n", "label: |\n")]
    [InlineData("# remark\n", "")]
    [InlineData(" ", "")]
    [InlineData("\n", "")]
    [InlineData("a: 1\n", "")]
    [InlineData("- 1\n", "zones:\n")]
    [InlineData("\0", "")]
    [InlineData("\t", "")]
    [InlineData("%TAG ! tag:x:\n", "")]
    public void Endless_text_is_left_soon(string again, string before)
    {
        foreach (var head in new[] { "waterscript: 1\n", Good[..Good.IndexOf("\nruns:", StringComparison.Ordinal)] + "\nruns:\n" })
        {
            var text = new Endless(head + before, again, 4_000_000);
            var start = GC.GetAllocatedBytesForCurrentThread();
            Assert.Throws<DeployedException>(() => ReadAll(text));
            Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - start, 0, 1_000_000_000);
            Assert.InRange(text.Given - head.Length, 0, 1_100_000);
        }
    }

    [Fact]
    public void A_description_that_is_too_long_to_hold_is_left_soon()
    {
        var label = "- \"" + new string('x', 500_000) + "\"\n";
        var text = new Endless("waterscript: 1\nzones:\n", label, 20_000_000);
        var problem = Assert.Throws<DeployedException>(() => ReadAll(text));
        Assert.Equal("the description has more than 8000000 characters", problem.Message);
        Assert.InRange(text.Given, 8_000_000, 8_010_000);
    }

    private static void ReadAll(string text) => ReadAll(new StringReader(text));

    private static void ReadAll(TextReader text)
    {
        using var deployed = DeployedTimetable.Open(text, "deployed.yaml", DateTimeZoneProviders.Tzdb);
        deployed.Finish();
    }

    private static string Yaml()
    {
        var site = SiteReader.Read(
            SourceText.From("garden.water", Garden), "garden.water", new MemoryFiles(new Dictionary<string, string>()), DateTimeZoneProviders.Tzdb).Site!;
        using var output = new MemoryStream();
        TimetableOutput.Write(Timetable.Of(site, Horizon.DaysFrom(site.Effective, 7)), OutputFormat.Yaml, new OutputOptions(), output);
        return Encoding.UTF8.GetString(output.ToArray());
    }

    /// <summary>A beginning, and then the same again and again.</summary>
    private sealed class Endless(string head, string again, int length) : TextReader
    {
        private int _at;

        /// <summary>How many letters were read.</summary>
        public int Given => _at;

        public override int Peek() => _at >= length ? -1 : _at < head.Length ? head[_at] : again[(_at - head.Length) % again.Length];

        public override int Read()
        {
            var letter = Peek();
            _at++;
            return letter;
        }
    }
}
