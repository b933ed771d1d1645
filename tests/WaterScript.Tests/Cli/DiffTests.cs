using System.Text.Json.Nodes;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class DiffTests : Workshop
{
    [Theory]
    [InlineData("start at 06:00", "start at 05:30", "  morning: start 06:00 → 05:30; first different on Sun 1 Mar 2026\n")]
    [InlineData(
        "every day",
        "on mon; from 1 apr to 30 sep",
        "  morning: every day → on mon; none → from 1 apr to 30 sep; 731 dates → 52 dates; first different on Sun 1 Mar 2026\n"
            + "Average water per week:\n  lawn 700.0 L → 49.8 L (−93 %)\n")]
    [InlineData(
        "for 10 min",
        "for 15 min",
        "  morning: lawn 10 min → 15 min; beds 10 min → 15 min; first different on Sun 1 Mar 2026\n"
            + "Average water per week:\n  lawn 700.0 L → 1050.0 L (+50 %)\n  beds 1 h 10 min → 1 h 45 min (+50 %)\n")]
    [InlineData("flow 10 L/min", "flow 12 L/min", "Average water per week:\n  lawn 700.0 L → 840.0 L (+20 %)\n")]
    [InlineData(
        "schedule morning {",
        "schedule dawn {",
        "Garden: no change in the watering; the description of the site is another. Compared Sun 1 Mar 2026 to Tue 29 Feb 2028.\n"
            + "Schedules:\n  morning: now called dawn, waters the same\n")]
    [InlineData("start at 06:00", "start at 01:30", "Found now:")]
    public void It_says_what_changes(string old, string @new, string text)
    {
        Write("old.water", Good);
        Write("new.water", Good.Replace(old, @new, StringComparison.Ordinal));
        var result = RunLine("diff old.water new.water");
        if (!text.StartsWith("Found", StringComparison.Ordinal)) Assert.Contains(text, result.Output, StringComparison.Ordinal);
        else Assert.Contains("Found now:\n  warning: the clock skips 01:30 on Sun 29 Mar 2026 [skipped-time] (new.water:4)\n", result.Output,
            StringComparison.Ordinal);
        Assert.Equal(("", old == "schedule morning {" ? 0 : 1), (result.Error, result.ExitCode));
    }

    [Fact]
    public void A_finding_that_stays_while_a_time_moves_neither_comes_nor_goes()
    {
        const string ruled = Good + "restriction town { for lawn; allow on sun }\n";
        Write("old.water", ruled);
        Write("new.water", ruled.Replace("06:00", "06:30", StringComparison.Ordinal));
        var output = RunLine("diff old.water new.water").Output;
        Assert.Contains("  morning: start 06:00 → 06:30;", output, StringComparison.Ordinal);
        Assert.DoesNotContain("[forbidden-day]", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_schedule_may_come_and_go()
    {
        Write("old.water", Good);
        Write("new.water", Good + "schedule noon { on sun; start at 12:00; steps { water beds for 2 min } }\n");
        Assert.Contains("  noon: new; on sun; start 12:00; beds 2 min; 105 dates; first on Sun 1 Mar 2026\n", RunLine("diff old.water new.water").Output,
            StringComparison.Ordinal);
        Assert.Contains("  noon: gone; was first due Sun 1 Mar 2026\n", RunLine("diff new.water old.water").Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("on sat, sun", "on fri to sun",
        "  morning: start 06:00 on mon to fri and 07:00 on sat, sun → 06:00 on mon to fri and 07:00 on fri to sun; first different on ")]
    [InlineData("start at 07:00 on sat, sun", "finish by 07:00 on sat, sun",
        "  morning: start 06:00 on mon to fri and 07:00 on sat, sun → 06:00 on mon to fri and to finish by 07:00 on sat, sun; first different on ")]
    [InlineData("start at 07:00 on sat, sun", "start at 07:00",
        "  morning: start 06:00 on mon to fri and 07:00 on sat, sun → 06:00 on mon to fri and 07:00; first different on ")]
    public void Days_of_a_start_are_told_as_they_are_written(string old, string @new, string text)
    {
        var source = Good.Replace("start at 06:00", "start at 06:00 on mon to fri; start at 07:00 on sat, sun", StringComparison.Ordinal);
        Write("old.water", source);
        Write("new.water", source.Replace(old, @new, StringComparison.Ordinal));
        Assert.Contains(text, RunLine("diff old.water new.water").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Water_is_told_as_the_file_counts_it()
    {
        var source = Good.Replace("flow 10 L/min", "flow 2.5 gpm", StringComparison.Ordinal);
        Write("old.water", source);
        Write("new.water", source.Replace("for 10 min", "for 20 min", StringComparison.Ordinal));
        Assert.Contains("  lawn 175.0 gal → 350.0 gal (+100 %)\n", RunLine("diff old.water new.water").Output, StringComparison.Ordinal);
        Assert.Contains("\"old_l_per_week\": 662.45,", RunLine("diff old.water new.water --report json").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Markdown_takes_no_markup_from_a_source()
    {
        Write("old.water", Good);
        Write("new.water", Good.Replace("\"Garden\"", "\"<b>@all [x](y) |\"", StringComparison.Ordinal));
        Assert.StartsWith("**\\<b\\>\\<U+0040\\>all \\[x\\](y) \\|: no change in the watering", RunLine("diff old.water new.water --report markdown").Output,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Programs_get_json()
    {
        Write("old.water", Good);
        Write("new.water", Good.Replace("06:00", "07:00", StringComparison.Ordinal));
        var tree = JsonNode.Parse(RunLine("diff old.water new.water --report json").Output)!;
        Assert.True((bool)tree["changed"]!);
        Assert.Equal("start", (string?)tree["schedules"]![0]!["turns"]![0]!["what"]);
    }

    [Fact]
    public void What_cannot_be_compared_hands_back_two()
    {
        Write("old.water", Good);
        Write("new.water", Good.Replace("water lawn,", "water lawm,", StringComparison.Ordinal));
        var result = RunLine("diff old.water new.water");
        Assert.Contains("no zone is called \"lawm\"", result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
    }

    [Fact]
    public void A_version_may_stand_in_a_revision_with_its_includes()
    {
        Write("sub/site.water", Good.Replace("zone beds { output 2 }", "include \"beds.water\"", StringComparison.Ordinal));
        Write("sub/beds.water", "zone beds { output 2; flow 1 L/min }\n");
        WaterscriptProcess.Shell(Folder, "git init -q . && git add . && git -c user.name=t -c user.email=t@example.org commit -q -m one");
        Write("sub/beds.water", "zone beds { output 2; flow 2 L/min }\n");
        var result = RunLine("diff HEAD:sub/site.water sub/site.water");
        Assert.Contains("  beds 70.0 L → 140.0 L (+100 %)\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        Assert.Equal(0, RunLine("diff HEAD:./sub/site.water :sub/site.water").ExitCode);
        Assert.Contains("git knows no revision gone", RunLine("diff gone:sub/site.water sub/site.water").Error, StringComparison.Ordinal);
        Assert.Contains("there is no file site.water in HEAD", RunLine("diff HEAD:site.water sub/site.water").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_git_or_a_repository_it_says_so()
    {
        Write("site.water", Good);
        Assert.Contains("lies in no git repository", RunLine("diff HEAD:site.water site.water").Error, StringComparison.Ordinal);
        var result = WaterscriptProgram.Run(Folder, [], [("PATH", Folder)], "diff", "HEAD:site.water", "site.water");
        Assert.Contains("needs git, and there is none on the path", result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }
}
