using System.Globalization;
using System.Text.Json.Nodes;
using WaterScript.Tests.Documents;
using WaterScript.Tests.Player;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>
/// What <c>deployed</c> prints of lists in a real git repository. Times and litres are worked out by hand beside each: lawn 10 L/min, beds 6 L/min, one
/// after the other from 06:00.
/// </summary>
public sealed class DeployedPrintoutTests : Workshop
{
    private const string Site = """
        site plot "Plot" { timezone Europe/Lisbon; effective 2026-03-01 }
        controller box { outputs 4 }
        pump well { output 4; zones lawn, beds }
        zone lawn "Lawn" { output 1; flow 10 L/min }
        zone beds "Beds" { output 2; flow 6 L/min }
        schedule morning {
          every day
          start at 06:00
          steps {
            water lawn for 10 min
            water beds for 5 min
          }
        }

        """;

    public DeployedPrintoutTests()
    {
        Write("plot.water", Site);
        Git("init -q .");
    }

    private void Git(string line) => Assert.Equal(0, Try(line).ExitCode);

    private WaterscriptProcess.Result Try(string line) =>
        WaterscriptProcess.Shell(Folder, $"git -c user.name=n -c user.email=e -c commit.gpgsign=false -c core.abbrev=4 {line}");

    /// <summary>Commits at noon in UTC, and gives the name that git itself shortens to seven digits.</summary>
    private string Commit(string subject, string date)
    {
        Git("add -A");
        WaterscriptProcess.Shell(Folder, $"GIT_COMMITTER_DATE='{date}T12:00:00Z' "
            + $"git -c user.name=n -c user.email=e -c commit.gpgsign=false commit -q -m '{subject}'");
        return Try("rev-parse --short=7 HEAD").Output.Trim();
    }

    private void Edit(string was, string now) => Write("plot.water", Read("plot.water").Replace(was, now, StringComparison.Ordinal));

    private void Compile(string list, string from, int days, string only = "switchings") => Assert.Equal(0, RunLine(string.Create(CultureInfo.InvariantCulture,
        $"compile plot.water --to {Path.GetExtension(list)[1..]} --only {only} --from {from} --days {days} -o {list}")).ExitCode);

    private (string Output, int Status) Deployed(string line)
    {
        var result = RunLine("deployed " + line);
        Assert.Equal("", result.Error);
        return (result.Output, result.ExitCode);
    }

    /// <summary>As <c>tail -1</c> has it, without the sources and the revision that the list carries.</summary>
    private void Bare(string list)
    {
        var lines = Read(list).Split("\r\n");
        var fields = lines[^2].Split(',');
        (fields[5], fields[6]) = ("", "");
        lines[^2] = string.Join(',', fields);
        Write(list, string.Join("\r\n", lines));
    }

    private string Hash(string list) => Read(list).Split("\r\n")[^2].Split(',')[2][..12];

    [ShellFact]
    public void What_changes_alike_on_several_dates_is_said_once()
    {
        var first = Commit("Water the plot", "2026-04-20");
        Compile("list.csv", "2026-05-04", 7);
        Edit("lawn for 10 min", "lawn for 12 min");
        var second = Commit("Lawn longer", "2026-05-06");
        Compile("now.csv", "2026-05-04", 7);
        // A day has 6 switchings: lawn, beds and the pump open and close. Of these the lawn closes, the beds open and close and the pump closes 2 min later.
        // 7 × (10 × 10 + 5 × 6) = 910 L, 7 × (12 × 10 + 30) = 1050 L.
        var (output, status) = Deployed("list.csv plot.water --at 2026-05-06T05:00");
        Assert.Equal(
            $"""
            list.csv: box, Mon 4 to Sun 10 May 2026, 42 switchings, complete, hash {Hash("list.csv")}
            Made from:  {first} "Water the plot", Mon 20 Apr 2026
            Not from:   plot.water as it is, {second} "Lawn longer", Wed 6 May 2026 ({Hash("now.csv")})
            Differs:    28 of 42 switchings, 7 days, from Mon 4 May 2026 06:10
              Lawn (output 1) and well (4) close 2 min later; Lawn 10 → 12 min, 100 → 120 L (plot.water:10)
              Beds (output 2) opens and closes 2 min later
              longest time on of {LongestOn()}; water in all 910 → 1050 L

            """,
            output, ignoreLineEndingDifferences: true);
        Assert.Equal(1, status);
    }

    /// <summary>As the two lists have it in their own column, output by output.</summary>
    private string LongestOn()
    {
        var (list, now) = (LongestOf("list.csv"), LongestOf("now.csv"));
        return string.Join("; ", list.Where(output => now[output.Key] != output.Value)
            .Select(output => $"output {output.Key}: {output.Value} → {now[output.Key]} s"));
    }

    private SortedDictionary<string, string> LongestOf(string list) => new(CsvReader.Read(Read(list))[1..^1].DistinctBy(row => row[3])
        .ToDictionary(row => row[3], row => row[7]), StringComparer.Ordinal);

    [ShellFact]
    public void What_only_one_of_both_opens_is_shown()
    {
        Commit("Water the plot", "2026-04-20");
        Compile("list.yaml", "2026-05-04", 7, "openings");
        Write("plot.water", Read("plot.water") + "schedule noon { on wed; start at 12:00; steps { water beds for 3 min } }\n");
        var (output, status) = Deployed("list.yaml plot.water --at 2026-05-04T03:00");
        Assert.Contains("Not from:   plot.water as it is, not committed (", output, StringComparison.Ordinal);
        Assert.Contains("Differs:    0 of 21 openings, the file gives 23, 1 day, from Wed 6 May 2026 12:00\n", output, StringComparison.Ordinal);
        Assert.Contains("  only the file opens Beds (output 2) and well (4): Beds 3 min, 18 L (plot.water:14)\n", output, StringComparison.Ordinal);
        Assert.Equal(1, status);
    }

    [ShellFact]
    public void A_list_without_sources_is_found_by_what_revisions_give()
    {
        var first = Commit("Water the plot", "2026-04-20");
        Write("plot.water", Read("plot.water") + "# as measured\n");
        var second = Commit("A remark", "2026-04-21");
        Compile("list.csv", "2026-05-04", 7);
        Bare("list.csv");
        Edit("lawn for 10 min", "lawn for 12 min");
        var third = Commit("Lawn longer", "2026-05-06");
        Assert.Contains($"Made from:  {first} to {second}, alike for these dates\n", Deployed("list.csv plot.water --at 2026-05-06T05:00").Output,
            StringComparison.Ordinal);
        var json = JsonNode.Parse(RunLine("deployed list.csv plot.water --report json").Output)!["lists"]![0]!;
        Assert.Equal("compiled", json["revision_from"]!.GetValue<string>());
        Assert.StartsWith(second, json["revision"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.StartsWith(first, json["revision_first"]!.GetValue<string>(), StringComparison.Ordinal);

        // Only the newest is looked at, and it is 4 switchings a day apart.
        Assert.Contains($"Made from:  the last revision does not give this list; nearest {third} \"Lawn longer\", Wed 6 May 2026, 28 switchings apart\n",
            Deployed("list.csv plot.water --back 1 --at 2026-05-06T05:00").Output, StringComparison.Ordinal);
    }

    [ShellFact]
    public void A_renamed_file_and_other_commits_do_not_hide_the_revision()
    {
        Commit("Water the plot", "2026-04-20");
        Edit("lawn for 10 min", "lawn for 11 min");
        Compile("list.csv", "2026-05-04", 7);
        var listed = Read("list.csv");
        File.Delete(PathOf("list.csv"));
        var own = Commit("Lawn 11 min", "2026-04-22");
        Git("mv plot.water garden.water");
        Commit("Another name", "2026-04-23");
        for (var day = 1; day < 5; day++)
        {
            Write("notes.txt", string.Create(CultureInfo.InvariantCulture, $"{day}"));
            Commit("Notes", string.Create(CultureInfo.InvariantCulture, $"2026-04-2{4 + day}"));
        }

        Write("garden.water", Read("garden.water").Replace("11 min", "12 min", StringComparison.Ordinal));
        Commit("Lawn 12 min", "2026-05-01");
        Write("list.csv", listed);
        // The list was compiled before the commit, so it has sources and no revision; three revisions touch the site since: the rename has the same sources.
        Assert.Contains($"Made from:  {own} \"Lawn 11 min\", Wed 22 Apr 2026\n",
            Deployed("list.csv garden.water --back 3 --at 2026-05-04T05:00").Output, StringComparison.Ordinal);
    }

    [Player.ShellTheory]
    [InlineData("2026-05-09T23:59", 0, "")]
    [InlineData("2026-05-10T00:00", 1, "The list ends Sun 10 May 2026 24:00.\n")]
    [InlineData("2026-05-10T23:59", 1, "The list ends Sun 10 May 2026 24:00.\n")]
    [InlineData("2026-05-11T00:00", 1, "The list ended Sun 10 May 2026 24:00.\n")]
    [InlineData("2026-05-01T00:00", 0, "")]
    public void A_list_that_ends_within_a_day_has_status_1(string at, int status, string words)
    {
        var revision = Commit("Water the plot", "2026-04-20");
        Compile("list.csv", "2026-05-04", 7);
        var made = $"Made from:  plot.water as it is, {revision} \"Water the plot\", Mon 20 Apr 2026\n";
        var head = $"list.csv: box, Mon 4 to Sun 10 May 2026, 42 switchings, complete, hash {Hash("list.csv")}\n";
        Assert.Equal((head + made + words, status), Deployed($"list.csv plot.water --at {at}"));
    }

    [ShellFact]
    public void Of_several_lists_the_current_one_comes_first_and_holes_and_overlaps_are_named()
    {
        var revision = Commit("Water the plot", "2026-04-20");
        Compile("a.csv", "2026-05-04", 7);
        Compile("b.csv", "2026-05-11", 7);
        Compile("c.csv", "2026-05-20", 5);
        Compile("d.csv", "2026-05-22", 7);
        var made = $"; made from plot.water as it is, {revision} \"Water the plot\", Mon 20 Apr 2026; the file gives the same\n";
        string Line(string file, string dates, int count) => string.Create(CultureInfo.InvariantCulture,
            $"{file}: box, {dates}, {count} switchings, complete, hash {Hash(file)}{made}");
        var lines = Line("b.csv", "Mon 11 to Sun 17 May 2026", 42) + Line("c.csv", "Wed 20 to Sun 24 May 2026", 30)
            + Line("d.csv", "Fri 22 to Thu 28 May 2026", 42) + Line("a.csv", "Mon 4 to Sun 10 May 2026", 42)
            + "No list from Mon 18 May 2026 00:00 to Tue 19 May 2026 24:00.\nTwo lists from Fri 22 May 2026 00:00 to Sun 24 May 2026 24:00: c.csv and d.csv.\n";
        Assert.Equal((lines, 0), Deployed("d.csv a.csv c.csv b.csv plot.water --at 2026-05-12T12:00"));
        Assert.Equal((lines + "The lists end Sun 17 May 2026 24:00.\n", 1), Deployed("d.csv a.csv c.csv b.csv plot.water --at 2026-05-17T12:00"));
        var (between, status) = Deployed("a.csv c.csv plot.water --at 2026-05-19T12:00");
        Assert.EndsWith("There is no list for now, Tue 19 May 2026 12:00.\n", between, StringComparison.Ordinal);
        Assert.Equal(1, status);
    }

    [ShellFact]
    public void A_list_that_cannot_be_read_does_not_hide_the_others()
    {
        Commit("Water the plot", "2026-04-20");
        Compile("list.csv", "2026-05-04", 7);
        Write("cut.csv", Read("list.csv").Replace(Read("list.csv").Split("\r\n")[3] + "\r\n", "", StringComparison.Ordinal));
        var result = RunLine("deployed cut.csv list.csv plot.water --at 2026-05-05T12:00");
        Assert.Equal(2, result.ExitCode);
        Assert.Contains("cut.csv:43:1: not complete: 41 of 42 switchings; copy the whole file, or compile it anew", result.Error, StringComparison.Ordinal);
        Assert.StartsWith("list.csv: box, ", result.Output, StringComparison.Ordinal);
    }

    [ShellFact]
    public void A_revision_that_is_not_there_is_said_and_the_sources_are_looked_for()
    {
        var revision = Commit("Water the plot", "2026-04-20");
        Compile("list.csv", "2026-05-04", 7);
        Edit("lawn for 10 min", "lawn for 12 min");
        Commit("Lawn longer", "2026-05-06");
        var name = new string('a', 40);
        Write("list.csv", Read("list.csv").Replace(Try("rev-parse HEAD~1").Output.Trim(), name, StringComparison.Ordinal));
        Assert.Contains($"Made from:  {name[..12]}, which this repository does not have; {revision} \"Water the plot\", Mon 20 Apr 2026\n",
            Deployed("list.csv plot.water --at 2026-05-06T05:00").Output, StringComparison.Ordinal);
        Write("list.csv", Read("list.csv").Replace(name, "--output=stolen", StringComparison.Ordinal));
        Assert.Contains("Made from:  --output=sto, which", Deployed("list.csv plot.water --at 2026-05-06T05:00").Output, StringComparison.Ordinal);
        Assert.DoesNotContain("stolen", Names());
    }
}
