using System.Globalization;
using System.Text.Json.Nodes;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Documents;
using WaterScript.Tests.Player;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A list can be traced to what it was compiled from.</summary>
public sealed class ProvenanceTests : Workshop
{
    private const string Parts = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        include "parts/zones.water"
        schedule morning {
          every day
          start at 06:00
          steps {
            water lawn for 10 min
            repeat 2 times { cycle 5 min soak 10 min { water beds for 10 min } }
          }
        }

        """;

    private void WriteParts()
    {
        Write("garden.water", Parts);
        Write("parts/zones.water", "zone lawn { output 1 }\nzone beds { output 2 }\n");
    }

    private string Git(string line) => WaterscriptProcess.Shell(Folder, $"git -c user.name=n -c user.email=e -c commit.gpgsign=false {line}").Output;

    private string Commit(string words)
    {
        Git("add -A");
        Git($"commit -q -m '{words}'");
        return Git("rev-parse HEAD").Trim();
    }

    [ShellFact]
    public void The_hash_of_the_sources_is_that_of_the_files()
    {
        WriteParts();
        var site = Json("garden.water")["site"]!;
        var expected = WaterscriptProcess.Shell(Folder, "sha256sum garden.water parts/zones.water | cut -c 1-64 | sha256sum | cut -c 1-64").Output.Trim();
        Assert.Equal(expected, site["sources_sha256"]!.GetValue<string>());
        Write("garden.water", Parts.Replace("\n", "\r\n", StringComparison.Ordinal));
        Assert.Equal(expected, Json("garden.water")["site"]!["sources_sha256"]!.GetValue<string>()); // A checkout may change ends of lines.
        Write("garden.water", Parts + "# a comment\n");
        Assert.NotEqual(expected, Json("garden.water")["site"]!["sources_sha256"]!.GetValue<string>());
        Assert.Equal(site["sha256"]!.GetValue<string>(), Json("garden.water")["site"]!["sha256"]!.GetValue<string>());
    }

    [ShellFact]
    public void The_revision_is_there_only_if_all_sources_stand_in_it()
    {
        WriteParts();
        Git("init -q .");
        Assert.Null(Json("garden.water")["site"]!["revision"]);
        var revision = Commit("first");
        Assert.Equal(revision, Json("garden.water")["site"]!["revision"]!.GetValue<string>());
        var csv = CsvReader.Read(RunLine("compile garden.water --to csv --only switchings --days 2").Output)[^1];
        Assert.Equal([revision, Json("garden.water")["site"]!["timezone_data"]!.GetValue<string>()], csv[6..8]);
        var yaml = RunLine("compile garden.water --to yaml --only switchings --days 2").Output;
        Assert.Contains($"revision: \"{revision}\"", yaml, StringComparison.Ordinal);
        Write("unrelated.txt", "not a source");
        Assert.Equal(revision, Json("garden.water")["site"]!["revision"]!.GetValue<string>());
        Write("parts/zones.water", Read("parts/zones.water") + "# changed\n");
        Assert.Null(Json("garden.water")["site"]!["revision"]);
    }

    [Fact]
    public void Schedules_and_steps_have_their_file_and_line()
    {
        WriteParts();
        var places = Json("garden.water")["places"]!.AsArray();
        var lines = places.Select(place => string.Create(CultureInfo.InvariantCulture,
            $"{place!["schedule"]} {place["step"]} {place["file"]}:{place["line"]}"));
        Assert.Equal(["morning  garden.water:3", "morning 1 garden.water:7", "morning 2 garden.water:8", "morning 2.1 garden.water:8",
            "morning 2.1.1 garden.water:8"], lines);
    }

    /// <summary>A season of lists, each compiled from another revision, are traced to it, whether or not the list names it.</summary>
    [ShellFact]
    public void Lists_are_traced_to_their_revisions()
    {
        WriteParts();
        Git("init -q .");
        var (revisions, forms) = (new List<string>(), new[] { "csv", "yaml", "json" });
        for (var week = 0; week < 6; week++)
        {
            var minutes = string.Create(CultureInfo.InvariantCulture, $"lawn for {10 + week} min");
            Write("garden.water", Parts.Replace("lawn for 10 min", minutes, StringComparison.Ordinal));
            var form = forms[week % 3];
            var line = string.Create(CultureInfo.InvariantCulture,
                $"compile garden.water --to {form} --only switchings --from 2026-06-{1 + week:00} --days 7 -o lists/{week}.{form}");
            Directory.CreateDirectory(PathOf("lists"));
            if (week % 2 == 0) RunLine(line); // Before the commit: the list has no revision of its own.
            revisions.Add(Commit("week"));
            if (week % 2 == 1) RunLine(line);
        }

        Commit("lists");
        for (var week = 0; week < 6; week++)
        {
            var at = string.Create(CultureInfo.InvariantCulture, $"--at 2026-06-{1 + week:00}T03:00");
            var result = RunLine($"deployed lists/{week}.{forms[week % 3]} garden.water {at}");
            var isLast = week == 5;
            Assert.Equal(("", isLast ? 0 : 1), (result.Error, result.ExitCode));
            var made = isLast ? "garden.water as it is, " : "";
            Assert.Contains($"Made from:  {made}{revisions[week][..7]} \"week\", ", result.Output, StringComparison.Ordinal);
            var first = new NodaTime.LocalDate(2026, 6, 1 + week).DayOfWeek.ToString()[..3];
            if (!isLast)
            {
                Assert.Contains($"Not from:   garden.water as it is, {revisions[5][..7]} \"week\", ", result.Output, StringComparison.Ordinal);
                Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"7 days, from {first} {1 + week} Jun 2026 06:{10 + week:00}\n"), result.Output,
                    StringComparison.Ordinal);
            }

            var list = Assert.Single(DeployedJson($"lists/{week}.{forms[week % 3]}")["lists"]!.AsArray())!;
            Assert.Equal(isLast, list["same"]!.GetValue<bool>());
            // The list of the last week has a revision of its own; before that every other week has none, and is found by its sources.
            Assert.Equal((revisions[week], week % 2 == 1 ? "list" : "search"),
                (list["revision"]!.GetValue<string>(), list["revision_from"]!.GetValue<string>()));
            Assert.Equal(isLast ? null : string.Create(CultureInfo.InvariantCulture, $"2026-06-{1 + week:00}T06:{10 + week:00}:00+01:00"),
                list["first_different"]?.GetValue<string>());
            Assert.Equal(isLast, list["only_in_list"]!.AsArray().Count == 0);
        }
    }

    [Fact]
    public void What_is_no_list_or_was_altered_is_refused()
    {
        Write("site.water", Good);
        RunLine("compile site.water --to csv --only switchings --days 2 -o list.csv");
        Assert.Equal(0, RunLine("deployed list.csv site.water --at 2026-02-27T12:00").ExitCode);
        Write("list.csv", Read("list.csv").Replace(",open,", ",close,", StringComparison.Ordinal));
        var altered = RunLine("deployed list.csv site.water");
        Assert.Equal(2, altered.ExitCode);
        Assert.Contains("the list was altered after it was written", altered.Error, StringComparison.Ordinal);
        Assert.Equal(2, RunLine("deployed site.water site.water").ExitCode);
        Write("cut.csv", Read("list.csv")[..^40]);
        Assert.Contains("the list was cut off", RunLine("deployed cut.csv site.water").Error, StringComparison.Ordinal);
    }

    /// <summary>Of an example, whatever it has: what it wrote is what it reads, and one byte more or less of a row is found.</summary>
    [Theory]
    [MemberData(nameof(Lists))]
    public void A_list_in_a_document_is_read_as_it_was_written_and_not_otherwise(string example, string form, string only, string was, string now)
    {
        var site = Path.Combine(Repository.Root, "examples", example);
        var list = $"list.{form}";
        var from = example == "nursery.water" ? "2026-12-07" : "2026-07-06";
        Assert.Equal(0, Run("compile", site, "--to", form, "--only", only, "--from", from, "--days", "4", "-o", list).ExitCode);
        var before = $"{from}T00:00";
        Assert.Equal(("", 0), (Run("deployed", list, site, "--at", before).Error, Run("deployed", list, site, "--at", before).ExitCode));
        var text = Read(list);
        var at = text.IndexOf(was, text.IndexOf(only + (form == "json" ? "\":" : ":"), StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.True(at > 0, $"no {was}");
        Write(list, string.Concat(text.AsSpan(0, at), now, text.AsSpan(at + was.Length)));
        var altered = Run("deployed", list, site);
        Assert.Equal(("", 2), (altered.Output, altered.ExitCode));
        Assert.Contains($"the {only} were changed after they were compiled: their sha256 is another", altered.Error, StringComparison.Ordinal);
    }

    public static TheoryData<string, string, string, string, string> Lists => new()
    {
        { "terraces.water", "yaml", "switchings", "do: open", "do: close" },
        { "nursery.water", "yaml", "switchings", "opening: 1", "opening: 2" },
        { "bench-rig.water", "yaml", "switchings", "pulse_ms: ", "pulse_ms: 1" },
        { "bench-rig.water", "json", "switchings", "\"polarity\": \"", "\"polarity\": \"x" },
        { "sports-ground.water", "yaml", "openings", "runs: [", "runs: [9, " },
        { "nursery.water", "json", "openings", "\"to\": \"2026-12-07T0", "\"to\": \"2026-12-07T1" },
    };

    [Fact]
    public void A_row_that_is_missing_from_a_document_is_found()
    {
        Write("site.water", Good);
        RunLine("compile site.water --to yaml --only runs --days 2 -o list.yaml");
        Write("list.yaml", Read("list.yaml").Replace("  - {run: 4", "  #- {run: 4", StringComparison.Ordinal));
        Assert.Contains("not complete: 3 of 4 runs", RunLine("deployed list.yaml site.water").Error, StringComparison.Ordinal);
    }

    /// <summary>What <c>deployed</c> answers for programs; every such answer of a test is compared with the schema.</summary>
    private JsonNode DeployedJson(string list) => JsonNode.Parse(RunLine($"deployed {list} garden.water --report json").Output)!;

    private JsonNode Json(string file) => JsonNode.Parse(Run("compile", file, "--to", "json", "--days", "2").Output)!;
}
