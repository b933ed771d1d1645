using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using WaterScript.Answers.Diff;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Linting.Engine;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Answers.Diff;

/// <summary>
/// Something changes exactly if the lists that a device gets, what is described of its outputs, or the findings do; and the report names the edit and its
/// line. The lists are compared as they are written, by nothing that a comparison uses.
/// </summary>
public sealed class EditKindTests
{
    private const int GardensEach = 4;
    private static readonly Horizon Dates = new(new LocalDate(2026, 3, 1), new LocalDate(2026, 9, 1));

    public static TheoryData<string> Kinds => [.. EditedGarden.Names];

    [Fact]
    public void There_are_25_kinds_and_more() => Assert.InRange(EditedGarden.Names.Count(), 25, 40);

    [Theory]
    [MemberData(nameof(Kinds))]
    public void An_edit_is_named_with_its_line_and_counts_where_a_list_differs(string kind)
    {
        for (var number = 0; number < GardensEach; number++)
        {
            var garden = EditedGarden.Of(kind, number);
            var (old, @new) = (Checked("old.water", garden.Old), Checked("new.water", garden.New));
            var changes = WateringChanges.Of(old, @new, Dates);
            var report = Plain(changes);
            var lists = (Old: ListsOf(old, garden.Renamed), New: ListsOf(@new, null));
            var differs = !lists.Old.SequenceEqual(lists.New, StringComparer.Ordinal);
            Assert.True(differs == changes.IsAnythingChanged, $"{kind} {number}: {differs}\n{report}{First(lists)}");
            var said = string.Join(' ', report.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            Assert.Contains(garden.Words, said, StringComparison.Ordinal);
            Assert.Contains(FormattableString.Invariant($"new.water:{garden.Line}"), said, StringComparison.Ordinal);
            Assert.NotEmpty(Reports.Markdown(lines => ChangesMarkdown.Write(changes, lines)));
        }
    }

    /// <summary>Layout, comments, names for numbers and groups, an order of things: nothing of it is a change.</summary>
    [Theory]
    [InlineData("  pause settle", "  pause   settle   # as before")]
    [InlineData("let settle = ", "\n\n# another line\nlet settle = ")]
    [InlineData("stagger 1 s", "stagger 1000 ms")]
    [InlineData("with 10 L", "with 10.0 L")]
    [InlineData("starts 5 s before zones; stops 10 s after zones", "stops 10 s after zones; starts 5 s before zones")]
    public void What_says_the_same_is_no_change(string from, string to)
    {
        var garden = EditedGarden.Of("days", 1).Old;
        var edited = garden.Replace(from, to, StringComparison.Ordinal);
        Assert.NotEqual(garden, edited);
        var changes = WateringChanges.Of(Checked("old.water", garden), Checked("new.water", edited), Dates);
        Assert.False(changes.IsAnythingChanged);
        Assert.StartsWith("Garden: no change in the watering. Compared 1 Mar 2026 to 31 Aug 2026.", Plain(changes), StringComparison.Ordinal);
    }

    [Fact]
    public void A_longer_pause_says_what_it_moves()
    {
        var garden = EditedGarden.Of("days", 1).Old;
        var pause = garden.Split('\n').First(line => line.StartsWith("  pause ", StringComparison.Ordinal) && line != "    pause settle");
        var minutes = int.Parse(pause.Trim().Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture);
        var longer = garden.Replace(pause, FormattableString.Invariant($"  pause {minutes + 3} min"), StringComparison.Ordinal);
        var report = Plain(WateringChanges.Of(Checked("old.water", garden), Checked("new.water", longer), Dates));
        Assert.Contains(FormattableString.Invariant($"sequence round: pause {minutes} → {minutes + 3} min, new.water:20: later steps move 3 min"), report,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Zones_that_change_alike_are_one_line()
    {
        var zones = string.Join('\n', Enumerable.Range(1, 7).Select(number =>
            FormattableString.Invariant($"zone bed-{number} {{ output {number}; flow 2 L/min; trim 90 % }}")));
        var site = "site s { timezone Europe/Lisbon; effective 2026-03-01 }\n" + zones
            + "\ngroup all-beds = bed-1, bed-2, bed-3, bed-4, bed-5, bed-6, bed-7"
            + "\nschedule m { every day; start at 05:00; steps { water all-beds for 10 min } }\n";
        var changes = WateringChanges.Of(
            Checked("old.water", site), Checked("new.water", site.Replace("trim 90 %", "trim 100 %", StringComparison.Ordinal)), Dates);
        var report = Plain(changes);
        Assert.Contains(
            "zones bed-1, bed-2, bed-3 and 4 more: trim 90 → 100 %, new.water:2, new.water:3, new.water:4 and 4", report, StringComparison.Ordinal);
        Assert.Contains("bed-1, bed-2, bed-3 and 4 more 9 min → 10 min", report, StringComparison.Ordinal);
        Assert.Contains("bed-1, bed-2, bed-3 and 4 more 882 → 980 L in all (+11 %)", report, StringComparison.Ordinal);
    }

    private static string First((List<string> Old, List<string> New) lists) =>
        $"- {lists.Old.Except(lists.New).FirstOrDefault()}\n+ {lists.New.Except(lists.Old).FirstOrDefault()}";

    private static string Plain(WateringChanges changes) => Reports.Plain(lines => ChangesText.Write(changes, lines));

    private static CheckedSite Checked(string path, string text)
    {
        var source = SourceText.From(path, text);
        var reading = SiteReader.Read(source, path, new NoFiles(), DateTimeZoneProviders.Tzdb);
        Assert.Empty(reading.Findings.Where(finding => finding.Severity == Severity.Error).Select(finding => finding.Heading));
        return CheckedSite.Untried(path, reading);
    }

    /// <summary>All lists as text without the numbers of their rows, what is described of outputs and devices, and what is found, wherever it stands.</summary>
    private static List<string> ListsOf(CheckedSite site, (string Old, string New)? renamed)
    {
        var timetable = Timetable.Of(site.Reading.Site!, Dates);
        var lines = new List<string>();
        string[] runs = ["from", "to", "zone", "output", "controller", "seconds", "depth_mm", "volume_l"];
        lines.AddRange(Columns(timetable, TimetableList.Runs, runs));
        lines.AddRange(Columns(timetable, TimetableList.Openings, "from", "to", "controller", "output", "kind", "name"));
        lines.AddRange(Columns(timetable, TimetableList.Switchings, "t", "after_ms", "controller", "output", "do", "polarity", "pulse_ms", "max_on_s"));
        lines.AddRange(DescribedOf(timetable));
        lines.AddRange(site.Findings.Select(finding => $"{finding.Rule.Slug} {finding.Severity} {finding.Heading} {finding.Details} {WhenOf(finding)}"));
        if (renamed is { } name) lines = lines.ConvertAll(line => line.Replace(name.Old, name.New, StringComparison.Ordinal));
        lines.Sort(StringComparer.Ordinal);
        return lines;
    }

    private static string WhenOf(Finding finding) => finding.Happens is { } happens ? MomentWords.When(happens) : finding.InPass;

    private static IEnumerable<string> Columns(Timetable timetable, TimetableList list, params string[] columns)
    {
        var table = Written(timetable, OutputFormat.Csv, new OutputOptions() { Only = list });
        var rows = table.Split('\n').Select(line => line.TrimEnd('\r').Split(',')).ToList();
        var kept = columns.Select(column => Array.IndexOf(rows[0], column)).ToList();
        return rows.Skip(1).Where(row => row.Length == rows[0].Length && row[0] != "end")
            .Select(row => $"{list} " + string.Join(',', kept.Select(index => row[index])));
    }

    private static IEnumerable<string> DescribedOf(Timetable timetable)
    {
        var tree = JsonNode.Parse(Written(timetable, OutputFormat.Json, new OutputOptions()))!;
        string[] kept = ["name", "kind", "stagger_ms", "controller", "output", "zones", "starts_after_s", "stops_after_s", "bridges_gaps_up_to_s", "pulse_ms"];
        foreach (var part in new[] { "controllers", "pumps", "valves" })
        {
            foreach (var item in tree[part]?.AsArray() ?? []) yield return part + " " + string.Join(' ', kept.Select(key => item![key]?.ToJsonString()));
        }

        foreach (var zone in tree["zones"]!.AsArray()) yield return $"zone {zone!["name"]} {zone["controller"]} {zone["output"]} {zone["valve"]}";
    }

    private static string Written(Timetable timetable, OutputFormat format, OutputOptions options)
    {
        using var stream = new MemoryStream();
        TimetableOutput.Write(timetable, format, options, stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private sealed class NoFiles : ISourceReader
    {
        public SourceText? Read(string path) => null;
    }
}
