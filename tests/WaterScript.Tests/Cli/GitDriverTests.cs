using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>What git shows once it is set up, by git itself.</summary>
public sealed class GitDriverTests : Workshop
{
    private const string Zones = "zone beds { output 2; flow 1 L/min }\n";
    private const string AsAdded = "*.water diff=waterscript\n";
    private static readonly string[] Whatever =
    [
        "zone beds {{{ output\n", "\0\u0001\u001b[31m\n", "", "# only a comment\n",
        "<<<<<<< HEAD\nzone a { output 1 }\n=======\nzone b { output 1 }\n>>>>>>> side\n",
    ];

    private static readonly string Site = Good.Replace("zone beds { output 2 }", "include \"parts/zones.water\"", StringComparison.Ordinal)
        .Replace("every day;", "every day; from 1 jun to 31 aug;", StringComparison.Ordinal);

    [Fact]
    public void What_is_set_up_is_said_before_and_taken_back_whole()
    {
        Repository();
        Write(".gitattributes", "*.pdf binary\n");
        var asked = Install("no");
        Assert.Contains("Adds to ", asked.Output, StringComparison.Ordinal);
        Assert.Contains("Sets in this checkout: diff.waterscript.textconv = ", asked.Output, StringComparison.Ordinal);
        Assert.Equal(2, asked.ExitCode);
        Assert.Equal("*.pdf binary\n", Read(".gitattributes"));
        Assert.Equal("", Git("config --local --get-regexp ^diff").Output);
        Assert.Equal(0, Install("yes").ExitCode);
        Assert.Equal("*.pdf binary\n" + AsAdded, Read(".gitattributes"));
        Assert.Contains("already", Install("").Output, StringComparison.Ordinal);
        Assert.Equal(0, Run("git", "install", "--undo", "--yes").ExitCode);
        Assert.Equal("*.pdf binary\n", Read(".gitattributes"));
        Assert.Equal("", Git("config --local --get-regexp ^diff").Output);
        Assert.Equal("nothing to undo\n", Run("git", "install", "--undo").Output);
    }

    [Fact]
    public void A_change_of_a_part_shows_what_it_does_to_its_site()
    {
        Repository();
        Assert.Equal(0, Install("yes").ExitCode);
        Write("parts/zones.water", Zones.Replace("1 L/min", "3 L/min", StringComparison.Ordinal));
        var diff = Git("diff");
        Assert.Contains("diff --waterscript parts/zones.water\nGarden: the watering changes.", diff.Output, StringComparison.Ordinal);
        Assert.Contains("zone beds: flow 1 → 3 L/min, parts/zones.water:1", diff.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (diff.Error, diff.ExitCode));
        Commit("two");
        Assert.Contains("zone beds: flow 1 → 3 L/min", Git("diff one two").Output, StringComparison.Ordinal);
        Assert.Contains("zone beds: flow 3 → 1 L/min", Git("diff two one").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_that_two_files_share_may_change_in_both()
    {
        Repository();
        Assert.Equal(0, Install("yes").ExitCode);
        Write("parts/zones.water", Zones.Replace("zone beds", "zone roses", StringComparison.Ordinal));
        Write("garden.water", Site.Replace("lawn, beds for", "lawn, roses for", StringComparison.Ordinal));
        var diff = Git("diff").Output;
        Assert.Contains("diff --waterscript parts/zones.water\nGarden: no change in the watering; the description changes.", diff, StringComparison.Ordinal);
        Assert.Contains("zone roses: renamed from beds, parts/zones.water:1", diff, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_with_another_name_is_said()
    {
        Repository();
        Assert.Equal(0, Install("yes").ExitCode);
        Git("mv garden.water plot.water");
        Assert.Contains("the file is called plot.water now\nno change in its text\n", Git("diff -M HEAD").Output, StringComparison.Ordinal);
    }

    /// <summary>The season begins months after the site does, and is in no list of its first days.</summary>
    [Fact]
    public void A_log_shows_the_rules_of_a_year_for_a_site_with_includes_and_for_a_part()
    {
        Repository();
        Assert.Equal(0, Install("yes").ExitCode);
        Write("garden.water", Site.Replace("for 10 min", "for 40 min", StringComparison.Ordinal));
        Commit("two");
        Write("parts/zones.water", Zones.Replace("1 L/min", "3 L/min", StringComparison.Ordinal));
        Commit("three");
        var log = Git("log -p");
        Assert.Contains("-  = beds 10 min a pass\n", log.Output, StringComparison.Ordinal);
        Assert.Contains("+  = beds 40 min a pass\n", log.Output, StringComparison.Ordinal);
        Assert.Contains("   = 92 dates in a year: Jun 30, Jul 31, Aug 31\n", log.Output, StringComparison.Ordinal);
        Assert.Contains("-  flow 1 L/min\n+  flow 3 L/min\n", log.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (log.Error, log.ExitCode));
    }

    public static TheoryData<string> Texts => [.. Samples.Some(Whatever, 0)];

    [Theory]
    [MemberData(nameof(Texts))]
    public void Whatever_is_in_a_file_git_goes_on(string text)
    {
        Repository();
        Assert.Equal(0, Install("yes").ExitCode);
        Write("parts/zones.water", text);
        Write("stray.water", "zone stray { output 9 }\n");
        Write("garden.water", Site.Replace("06:00", "07:00", StringComparison.Ordinal));
        Commit("two");
        File.Delete(PathOf("garden.water"));
        Commit("three");
        foreach (var line in new[] { "log -p", "diff one two", "diff one three", "diff two three", "diff three one", "show two" })
        {
            var result = Git(line);
            Assert.Equal(("", 0), (result.Error, result.ExitCode));
            Assert.DoesNotContain('\u001b', result.Output);
        }
    }

    [Fact]
    public void Without_the_program_git_shows_lines()
    {
        Repository();
        Assert.Equal(0, Install("yes").ExitCode);
        Write("garden.water", Site.Replace("06:00", "07:00", StringComparison.Ordinal));
        var result = WaterscriptProcess.Shell(Folder, "git diff 2> /dev/null");
        Assert.Contains("07:00", result.Output, StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);
    }

    private WaterscriptProcess.Result Install(string answer) =>
        WaterscriptProgram.Run(Folder, System.Text.Encoding.UTF8.GetBytes(answer + "\n"), [], "git", "install");

    /// <summary>Git, with the program on its path.</summary>
    private WaterscriptProcess.Result Git(string words) =>
        WaterscriptProcess.Shell(Folder, $"PATH=\"$(dirname \"$WATERSCRIPT\"):$PATH\" git {words}");

    private void Repository()
    {
        Write("garden.water", Site);
        Write("parts/zones.water", Zones);
        WaterscriptProcess.Shell(Folder, "git init -q .");
        Commit("one");
    }

    private void Commit(string tag) =>
        WaterscriptProcess.Shell(Folder, $"git add . && git -c user.name=t -c user.email=t@example.org commit -q -m {tag}; git tag {tag}");
}
