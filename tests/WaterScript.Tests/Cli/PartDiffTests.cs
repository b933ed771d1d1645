using System.Text.Json.Nodes;
using WaterScript.Tests.Player;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary><c>diff</c> of files without a site: in the sites that include them, else by what is written. Numbers are worked out by hand.</summary>
public sealed class PartDiffTests : Workshop
{
    private const string Zones = "zone lawn \"Lawn\" { output 1; flow 10 L/min }\nsequence all { water lawn for 10 min }\n";
    private const string Site = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        include "parts/zones.water"
        schedule morning { every day; start at 06:00; steps { run all } }

        """;

    public PartDiffTests()
    {
        Write("parts/zones.water", Zones);
        Write("was.water", Zones.Replace("10 min", "8 min", StringComparison.Ordinal));
    }

    private void Git(string line) => Assert.Equal(0,
        WaterscriptProcess.Shell(Folder, $"git -c user.name=n -c user.email=e -c commit.gpgsign=false {line}").ExitCode);

    /// <summary>7 × 8 × 10 = 560 L a week, then 7 × 10 × 10 = 700 L.</summary>
    [Fact]
    public void A_part_is_compared_in_the_site_that_includes_it()
    {
        Write("garden.water", Site);
        var result = RunLine("diff was.water parts/zones.water");
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        Assert.StartsWith("parts/zones.water has no site: compared is what changes in the sites that include it, when nothing", result.Output,
            StringComparison.Ordinal);
        Assert.Contains("garden.water\nGarden: the watering changes.", result.Output, StringComparison.Ordinal);
        Assert.Contains("8 → 10 min", result.Output.Replace("8 min →", "8 →", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("Lawn 560 → 700 L (+25 %)", result.Output, StringComparison.Ordinal);
        Assert.EndsWith("1 site: 1 changed.\n", result.Output, StringComparison.Ordinal);
        // The other way round, the site includes the old one.
        Assert.Contains("Lawn 700 → 560 L (−20 %)", RunLine("diff parts/zones.water was.water").Output, StringComparison.Ordinal);
        Assert.Equal(0, RunLine("diff parts/zones.water parts/zones.water").ExitCode);
        var json = JsonNode.Parse(RunLine("diff was.water parts/zones.water --report json").Output)!;
        Assert.Equal("changed", json["sites"]![0]!["change"]!.GetValue<string>());
        Assert.Contains("has no site", json["note"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_site_it_is_compared_by_what_is_written()
    {
        var result = RunLine("diff was.water parts/zones.water");
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        Assert.Contains("has no site, and no site here includes it: compared is what is written", result.Output, StringComparison.Ordinal);
        Assert.Contains("8 min → 10 min", result.Output.Replace("8 → 10 min", "8 min → 10 min", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("parts/zones.water:2", result.Output, StringComparison.Ordinal);
        var json = JsonNode.Parse(RunLine("diff was.water parts/zones.water --report json").Output)!;
        Assert.Single(json["written"]!.AsArray());
        Assert.Contains("10 min", RunLine("diff was.water parts/zones.water --report markdown").Output, StringComparison.Ordinal);

        Write("layout.water", "# a comment\n" + Zones.Replace("; ", ";   ", StringComparison.Ordinal));
        var same = RunLine("diff layout.water parts/zones.water");
        Assert.Equal(0, same.ExitCode);
        Assert.Contains("nothing but layout or comments is another", same.Output.Replace('\n', ' '), StringComparison.Ordinal);
        Assert.Equal(1, RunLine("diff /dev/null parts/zones.water").ExitCode);
    }

    [Fact]
    public void What_cannot_be_compared_has_status_2()
    {
        Write("broken.water", "zone lawn { output\n");
        var broken = RunLine("diff was.water broken.water");
        Assert.Equal(("", 2), (broken.Output, broken.ExitCode));
        Assert.Contains("broken.water:1", broken.Error, StringComparison.Ordinal);
        Write("garden.water", Site);
        Assert.Equal(2, RunLine("diff was.water garden.water").ExitCode);
        Assert.Equal(2, RunLine("diff was.water parts/zones.water -o page.html").ExitCode);
        Write("parts/zones.water", "zone other { output 1 }\n");
        var error = RunLine("diff was.water parts/zones.water");
        Assert.Equal(2, error.ExitCode);
        Assert.Contains("the site has an error with the new version", error.Output, StringComparison.Ordinal);
    }

    [ShellFact]
    public void A_part_in_revisions_is_compared_in_the_sites_there()
    {
        Write("garden.water", Site);
        Write("alone.water", "zone tree { output 3; flow 4 L/min }\n");
        Write("parts/zones.water", Read("was.water"));
        File.Delete(PathOf("was.water"));
        Git("init -q .");
        Git("add -A");
        Git("commit -q -m first");
        Write("parts/zones.water", Zones);
        Write("alone.water", "zone tree { output 3; flow 5 L/min }\n");
        Assert.Contains("Lawn 560 → 700 L (+25 %)", RunLine("diff HEAD:parts/zones.water parts/zones.water").Output, StringComparison.Ordinal);
        Git("commit -q -a -m second");
        foreach (var line in (string[])["diff HEAD~1:parts/zones.water HEAD:parts/zones.water", "diff HEAD~1..HEAD parts/zones.water"])
        {
            var result = RunLine(line);
            Assert.Equal(("", 1), (result.Error, result.ExitCode));
            Assert.Contains("Lawn 560 → 700 L (+25 %)", result.Output, StringComparison.Ordinal);
        }

        // No site includes this one: its words are compared, in revisions too.
        foreach (var line in (string[])["diff HEAD~1:alone.water HEAD:alone.water", "diff HEAD~1..HEAD alone.water", "diff HEAD~1:alone.water alone.water"])
        {
            var result = RunLine(line);
            Assert.Equal(("", 1), (result.Error, result.ExitCode));
            Assert.Contains("alone.water:1", result.Output, StringComparison.Ordinal);
            Assert.Contains("→ 5 L/min", result.Output, StringComparison.Ordinal);
        }
    }
}
