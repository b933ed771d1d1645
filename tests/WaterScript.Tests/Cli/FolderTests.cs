using System.Text.Json.Nodes;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>Sites of a folder that share files.</summary>
public sealed class FolderTests : Workshop
{
    private const string Zones = """
        zone lawn { output 1; flow 10 L/min }
        zone beds { output 2; flow 10 L/min }

        """;

    private void Site(string name, string zone, string parts = "zones.water") => Write($"{name}.water",
        $"site {name} {{ timezone Europe/Lisbon; effective 2026-03-01 }}\ninclude \"{parts}\"\n"
        + $"schedule morning {{ every day; start at 06:00; steps {{ water {zone} for 10 min }} }}\n");

    [Fact]
    public void What_another_site_uses_is_not_unused()
    {
        Write("zones.water", Zones);
        Site("north", "lawn");
        Site("south", "beds");
        Assert.Contains("[unused]", Run("check", "north.water").Output, StringComparison.Ordinal);
        Assert.DoesNotContain("[unused]", Run("check", ".").Output, StringComparison.Ordinal);
        Write("zones.water", Zones + "zone nobody { output 3; flow 1 L/min }\n");
        var result = Run("check", ".").Output;
        Assert.Single(Lines(result, "[unused]"));
        Assert.Contains("advice: zone nobody is never watered [unused]\n  zones.water:3:", result, StringComparison.Ordinal);
    }

    [Fact]
    public void An_accept_that_one_site_needs_is_not_unused()
    {
        Write("zones.water", Zones + "accept unused because \"beds rest this year\"\n");
        Site("north", "lawn");
        Site("south", "lawn, beds");
        Assert.Contains("[unused-accept]", Run("check", "south.water").Output, StringComparison.Ordinal);
        var both = Run("check", ".", "--strict");
        Assert.DoesNotContain("[unused-accept]", both.Output, StringComparison.Ordinal);
        Assert.Equal(0, both.ExitCode);
    }

    [Fact]
    public void What_a_shared_file_accepts_is_shown_once()
    {
        Write("zones.water", Zones + "accept unused because \"beds rest this year\"\n");
        Site("north", "lawn");
        Site("south", "lawn");
        Assert.Single(Lines(Run("check", ".", "--show-accepted").Output, "- \"beds rest this year\""));
    }

    [Fact]
    public void A_site_that_cannot_be_read_may_use_anything()
    {
        Write("zones.water", Zones);
        Site("north", "lawn");
        Site("south", "bedz");
        Assert.DoesNotContain("[unused]", Run("check", ".").Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text", "skips 01:30")]
    [InlineData("github", "title=the clock skips")]
    [InlineData("sarif", "\"ruleId\": \"skipped-time\"")]
    [InlineData("json", "\"rule\": \"skipped-time\"")]
    public void A_finding_of_a_shared_file_is_reported_once(string form, string mark)
    {
        Write("zones.water", Zones + "schedule night { every day; start at 01:30; steps { water lawn for 1 min } }\n");
        Site("north", "lawn, beds");
        Site("south", "lawn, beds");
        Site("west", "lawn, beds");
        var result = Run("check", ".", "--strict", "--report", form);
        Assert.Equal(1, result.ExitCode);
        Assert.Single(Lines(result.Output, mark));
        if (form != "text") return;
        Assert.Contains("3 sites: 1 warning, 1 piece of advice in all of them", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_report_for_programs_counts_what_stands_elsewhere()
    {
        Write("zones.water", Zones + "schedule night { every day; start at 01:30; steps { water lawn for 1 min } }\n");
        Site("north", "lawn, beds");
        Site("south", "lawn, beds");
        var sites = JsonNode.Parse(Run("check", ".", "--report", "json").Output)!["sites"]!.AsArray();
        Assert.Equal(2, sites[0]!["findings"]!.AsArray().Count);
        Assert.Null(sites[0]!["tally"]!["shared"]);
        Assert.Empty(sites[1]!["findings"]!.AsArray());
        Assert.Equal(2, sites[1]!["tally"]!["shared"]!.GetValue<int>());
    }

    [Fact]
    public void Quiet_prints_findings_and_nothing_else()
    {
        Write("zones.water", Zones);
        Site("north", "lawn, beds");
        Write("stray.water", "zone other { output 1 }\n");
        var result = Run("check", ".", "--quiet");
        Assert.Equal(("", "", 0), (result.Output, result.Error, result.ExitCode));
        Assert.Contains("stray.water: not checked", Run("check", ".").Output, StringComparison.Ordinal);
        Site("north", "lawn, beds, lawm");
        var bad = Run("check", ".", "--quiet");
        Assert.StartsWith("error: no zone is called \"lawm\" [unknown-name]\n", bad.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("\nnorth:", bad.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Paths_are_from_where_one_stands()
    {
        Write("parts/zones.water", Zones);
        Site("sites/north", "lawn", "../parts/zones.water");
        Write("sites/north.water", Read("sites/north.water").Replace("site sites/north", "site north", StringComparison.Ordinal));
        Directory.CreateDirectory(PathOf(".git"));
        Directory.CreateDirectory(PathOf("sites/deep"));
        string At(string folder, string file) =>
            WaterscriptProgram.Run(PathOf(folder), "check", file).Output.Split('\n').First(line => line.Contains("zones.water", StringComparison.Ordinal));
        Assert.StartsWith("  parts/zones.water:2:", At(".", "sites/north.water"), StringComparison.Ordinal);
        Assert.StartsWith("  ../parts/zones.water:2:", At("sites", "north.water"), StringComparison.Ordinal);
        Assert.StartsWith("  ../../parts/zones.water:2:", At("sites/deep", "../north.water"), StringComparison.Ordinal);
        Assert.StartsWith("  zones.water:2:", At("parts", "../sites/north.water"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_rule_alone_is_looked_for()
    {
        Write("zones.water", Zones);
        Site("north", "lawn");
        var found = Run("check", "north.water", "--rule", "unused");
        Assert.Equal(1, found.ExitCode); // Advice too: that is what was asked for.
        Assert.EndsWith("north: 1 piece of advice by rule unused.\n", found.Output, StringComparison.Ordinal);
        var none = Run("check", "north.water", "--rule", "voltage-drop", "--rule", "skipped-time");
        Assert.Equal(("north: no findings by rules voltage-drop, skipped-time.\n", 0), (none.Output, none.ExitCode));
        Assert.Equal("", Run("check", "north.water", "--quiet", "--rule", "voltage-drop").Output);
        Site("south", "lawm");
        var unread = Run("check", "south.water", "--rule", "unused");
        Assert.Equal(2, unread.ExitCode);
        Assert.Contains("south.water: its errors keep it from being checked for unused", unread.Error, StringComparison.Ordinal);
        Assert.Equal(1, Run("check", "south.water", "--rule", "unknown-name").ExitCode);
        Assert.Equal(0, Run("check", "south.water", "--rule", "syntax").ExitCode);
        Assert.Contains("no rule \"voltage-dorp\"; did you mean voltage-drop?", Run("check", "north.water", "--rule", "voltage-dorp").Error,
            StringComparison.Ordinal);
        Assert.Contains("--rule only looks", Run("check", "north.water", "--rule", "unused", "--fix").Error, StringComparison.Ordinal);
    }

    private static string[] Lines(string output, string mark) =>
        [.. output.Split('\n').Where(line => line.Contains(mark, StringComparison.Ordinal))];
}
