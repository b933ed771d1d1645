using System.Text.Json.Nodes;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>What changes between two revisions in the sites of a folder.</summary>
public sealed class FolderDiffTests : Workshop
{
    private const string Zones = "zone beds { output 2; flow 1 L/min }\n";
    private static readonly string Site = Good.Replace("zone beds { output 2 }", "include \"parts/zones.water\"", StringComparison.Ordinal);

    [Fact]
    public void Sites_that_a_part_touches_are_shown_and_others_are_counted()
    {
        Repository();
        Write("parts/zones.water", Zones.Replace("1 L/min", "2 L/min", StringComparison.Ordinal));
        Commit("two");
        var result = RunLine("diff one..two .");
        Assert.StartsWith("garden.water\nGarden: the watering changes.", result.Output, StringComparison.Ordinal);
        Assert.Contains("zone beds: flow 1 → 2 L/min, two:parts/zones.water:1", result.Output, StringComparison.Ordinal);
        Assert.EndsWith("\n2 sites: 1 changed, 1 untouched.\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        Assert.Equal(result.Output.Replace("two:", "", StringComparison.Ordinal), RunLine("diff one .").Output);
        Assert.Contains("zone beds: flow 1 → 2 L/min", RunLine("diff one..two parts/zones.water").Output, StringComparison.Ordinal);
        Assert.EndsWith("1 site: 1 untouched.\n", RunLine("diff one..two other").Output, StringComparison.Ordinal);
        Assert.Equal(0, RunLine("diff one..two other").ExitCode);
    }

    [Fact]
    public void Sites_that_come_go_and_move_are_shown_as_such()
    {
        Repository();
        Git("rm -q other/plot.water && git mv garden.water moved.water");
        Write("new.water", Good.Replace("site garden \"Garden\"", "site balcony \"Balcony\"", StringComparison.Ordinal));
        Commit("two");
        var result = RunLine("diff one..two . --report json");
        var sites = JsonNode.Parse(result.Output)!["sites"]!.AsArray();
        Assert.Equal(["moved.water same", "new.water added", "other/plot.water removed"], sites.Select(site => $"{site!["file"]} {site["change"]}"));
        Assert.Equal("garden.water", (string?)sites[0]!["old_file"]);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        var text = RunLine("diff one..two .").Output;
        Assert.Contains("Balcony: a new site.", text, StringComparison.Ordinal);
        Assert.Contains("Plot: the site is gone.", text, StringComparison.Ordinal);
        Assert.Contains("### new.water\n", RunLine("diff one..two . --report markdown").Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/dev/null garden.water", "a new site")]
    [InlineData("garden.water /dev/null", "the site is gone")]
    [InlineData("one:late.water late.water", "a new site")]
    public void A_site_without_another_version_is_no_error(string sides, string verdict)
    {
        Repository();
        Write("late.water", Good);
        var result = RunLine("diff " + sides);
        Assert.StartsWith($"Garden: {verdict}. ", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
    }

    [Fact]
    public void An_old_version_with_an_error_does_not_stand_in_the_way()
    {
        Write("garden.water", Good.Replace("water lawn,", "water lawm,", StringComparison.Ordinal));
        Write("plot.water", Plot());
        Git("init -q .");
        Commit("one");
        Write("garden.water", Good);
        Write("plot.water", Plot().Replace("06:00", "07:00", StringComparison.Ordinal));
        Commit("two");
        var result = RunLine("diff one..two .");
        Assert.Contains("garden.water: the old version cannot be read: 1 error\n", result.Output, StringComparison.Ordinal);
        Assert.Contains("start 06:00 → 07:00, two:plot.water:4", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
        var back = RunLine("diff two..one .");
        Assert.Contains("no zone is called \"lawm\"", back.Error, StringComparison.Ordinal);
        Assert.Contains("start 07:00 → 06:00, one:plot.water:4", back.Output, StringComparison.Ordinal);
        Assert.Equal(2, back.ExitCode);
    }

    [Fact]
    public void A_link_and_a_submodule_are_followed_inside_the_repository()
    {
        if (OperatingSystem.IsWindows()) return;
        Directory.CreateDirectory(PathOf("shared"));
        Write("shared/zones.water", Zones);
        WaterscriptProcess.Shell(PathOf("shared"), "git init -q . && " + CommitLine("one"));
        Write("home/garden.water", Good.Replace("zone beds { output 2 }", "include \"lib/zones.water\"", StringComparison.Ordinal));
        File.CreateSymbolicLink(PathOf("home/lib"), "vendor");
        File.CreateSymbolicLink(PathOf("home/today.water"), "garden.water");
        File.CreateSymbolicLink(PathOf("home/away.water"), "../../etc/passwd");
        var home = PathOf("home");
        WaterscriptProcess.Shell(home, "git init -q . && git -c protocol.file.allow=always submodule add -q ../shared vendor; " + CommitLine("one"));
        foreach (var version in new[] { "one:garden.water", "one:today.water", ":garden.water" })
        {
            var result = WaterscriptProgram.Run(home, "diff", version, "garden.water");
            Assert.Equal(("", 0), (result.Error, result.ExitCode));
        }

        Assert.Contains("a link leads out of the repository", WaterscriptProgram.Run(home, "diff", "one:away.water", "garden.water").Error,
            StringComparison.Ordinal);
        Directory.Delete(PathOf("home/vendor"), recursive: true);
        Assert.Contains("git submodule update --init vendor", WaterscriptProgram.Run(home, "diff", "one:garden.water", "garden.water").Error,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("..HEAD", "..HEAD has no revision on one side")]
    [InlineData("one..", "one.. has no revision on one side")]
    [InlineData("...HEAD", "...HEAD has no revision on one side")]
    [InlineData("gone..HEAD", "git knows no revision gone")]
    [InlineData("--x..HEAD", "unknown option --x..HEAD")]
    public void What_is_no_range_says_why(string range, string why)
    {
        Repository();
        var result = RunLine($"diff {range} .");
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
    }

    [Fact]
    public void Three_dots_begin_where_two_branches_went_apart()
    {
        Repository();
        Git("checkout -q -b side");
        Write("other/plot.water", Plot().Replace("06:00", "07:00", StringComparison.Ordinal));
        Commit("two");
        Git("checkout -q one");
        Write("garden.water", Site.Replace("06:00", "09:00", StringComparison.Ordinal));
        Commit("three");
        Assert.EndsWith("2 sites: 2 changed.\n", RunLine("diff three..two .").Output, StringComparison.Ordinal);
        Assert.EndsWith("2 sites: 1 changed, 1 untouched.\n", RunLine("diff three...two .").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_shallow_checkout_says_how_to_get_more()
    {
        Repository();
        Write("garden.water", Site.Replace("06:00", "09:00", StringComparison.Ordinal));
        Commit("two");
        WaterscriptProcess.Shell(Folder, "git clone -q --depth 1 \"file://$PWD\" copy");
        var result = WaterscriptProgram.Run(PathOf("copy"), "diff", "HEAD~1..HEAD", ".");
        Assert.Contains("git fetch --unshallow, or with fetch-depth: 0", result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }

    /// <summary>Only who may give files away can try it.</summary>
    [Fact]
    public void A_repository_of_somebody_else_says_which_setting_helps()
    {
        Repository();
        if (OperatingSystem.IsWindows() || WaterscriptProcess.Shell(Folder, "chown -R 12345 . 2> /dev/null").ExitCode != 0) return;
        var result = RunLine("diff one..HEAD .");
        Assert.Contains("dubious ownership", result.Error, StringComparison.Ordinal);
        Assert.Contains($"git config --global --add safe.directory {Folder}", result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }

    private static string Plot() => Good.Replace("site garden \"Garden\"", "site plot \"Plot\"", StringComparison.Ordinal);

    private static string CommitLine(string tag) => $"git add . && git -c user.name=t -c user.email=t@example.org commit -q -m {tag} && git tag {tag}";

    private void Repository()
    {
        Write("garden.water", Site);
        Write("parts/zones.water", Zones);
        Write("other/plot.water", Plot());
        Git("init -q .");
        Commit("one");
    }

    private void Commit(string tag) => WaterscriptProcess.Shell(Folder, CommitLine(tag));

    private void Git(string words) => WaterscriptProcess.Shell(Folder, "git " + words);
}
