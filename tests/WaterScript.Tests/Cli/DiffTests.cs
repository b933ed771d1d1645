using System.Text.Json.Nodes;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class DiffTests : Workshop
{
    [Theory]
    [InlineData("start at 06:00", "start at 05:30", "first change Sun 1 Mar 2026. morning: start 06:00 → 05:30, new.water:4")]
    [InlineData("every day", "on mon; from 1 apr to 30 sep",
        "morning: days every day → mon (731 → 52 dates); season added, 1 apr to 30 sep, new.water:4 Per week: lawn 700 → 50 L (−93 %), beds ")]
    [InlineData("for 10 min", "for 15 min",
        "morning: lawn, beds 10 min → 15 min, new.water:4 Per week: lawn 700 → 1050 L (+50 %), beds 1 h 10 min → 1 h 45 min (+50 %)")]
    [InlineData("flow 10 L/min", "flow 12 L/min", "zone lawn: flow 10 → 12 L/min, new.water:2 Per week: lawn 700 → 840 L (+20 %)")]
    [InlineData("output 2", "output 3", "no change in the watering; devices do otherwise.")]
    [InlineData("schedule morning {", "schedule dawn {",
        "Garden: no change in the watering; the description changes. Compared 1 Mar 2026 to 29 Feb 2028. dawn: renamed from morning, waters the same")]
    [InlineData("zone beds { output 2 }", "zone beds \"Beds\" { output 2 }", "no change in the watering; the description changes.")]
    [InlineData("start at 06:00", "start at 01:30", "New: warning: the clock skips 01:30 on Sun 29 Mar 2026 [skipped-time] new.water:4:")]
    public void It_says_what_changes(string old, string @new, string text)
    {
        Write("old.water", Good);
        Write("new.water", Good.Replace(old, @new, StringComparison.Ordinal));
        var result = RunLine("diff old.water new.water");
        Assert.Contains(text, Words(result.Output), StringComparison.Ordinal);
        Assert.Equal(("", text.Contains("description", StringComparison.Ordinal) ? 0 : 1), (result.Error, result.ExitCode));
    }

    [Theory]
    [InlineData("start at 06:00", "start at 05:30", 1, 1, 0)]
    [InlineData("output 2", "output 3", 0, 1, 0)]
    [InlineData("zone beds {", "restriction town { for lawn; allow on sun }\nzone beds {", 0, 0, 1)]
    [InlineData("flow 10 L/min", "flow 10 L/min; efficiency 80 %", 0, 0, 0)]
    public void A_status_may_be_of_one_thing_only(string old, string @new, int water, int devices, int findings)
    {
        Write("old.water", Good);
        Write("new.water", Good.Replace(old, @new, StringComparison.Ordinal));
        int Status(string only) => RunLine($"diff old.water new.water --only {only}").ExitCode;
        Assert.Equal((water, devices, findings), (Status("water"), Status("devices"), Status("findings")));
        Assert.Equal(Math.Min(1, water + devices + findings), RunLine("diff old.water new.water").ExitCode);
    }

    /// <summary>The old name of the schedule is a word of the finding's heading, too: late into the morning.</summary>
    [Theory]
    [InlineData("was.water", "is.water")]
    [InlineData("is.water", "was.water")]
    public void A_name_that_is_an_everyday_word_changes_no_finding(string old, string @new)
    {
        const string site = "site plot { timezone Europe/Lisbon; location 39.6 N 8.1 W; effective 2026-03-01 }\nzone lawn { output 1; method rotor }\n"
            + "schedule morning { every day; from 1 jun to 31 jul; start at 07:30; steps { water lawn for 45 min } }\n";
        Write("was.water", site);
        Write("is.water", site.Replace("morning", "m", StringComparison.Ordinal));
        Assert.Contains("[ends-late]", Run("check", "is.water").Output, StringComparison.Ordinal);
        var result = Run("diff", old, @new);
        Assert.Contains("renamed from", result.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("ends-late", result.Output, StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);
    }

    [Fact]
    public void A_finding_that_stays_while_a_time_moves_neither_comes_nor_goes()
    {
        const string ruled = Good + "restriction town { for lawn; allow on sun }\n";
        Write("old.water", ruled);
        Write("new.water", ruled.Replace("06:00", "06:30", StringComparison.Ordinal));
        var output = RunLine("diff old.water new.water").Output;
        Assert.Contains("morning:  start 06:00 → 06:30", output, StringComparison.Ordinal);
        Assert.DoesNotContain("[forbidden-day]", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_schedule_may_come_and_go()
    {
        Write("old.water", Good);
        Write("new.water", Good + "schedule noon { on sun; start at 12:00; steps { water beds for 2 min } }\n");
        Assert.Contains("noon: added: days sun; start 12:00; beds 2 min; 105 dates, new.water:5", Words(RunLine("diff old.water new.water").Output),
            StringComparison.Ordinal);
        Assert.Contains("noon: removed: days sun;", Words(RunLine("diff new.water old.water").Output), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("on sat, sun", "on fri to sun",
        "morning: start 06:00 on mon to fri and 07:00 on sat, sun → 06:00 on mon to fri and 07:00 on fri to sun, new.water:4")]
    [InlineData("start at 07:00 on sat, sun", "finish by 07:00 on sat, sun",
        "morning: start 06:00 on mon to fri and 07:00 on sat, sun → 06:00 on mon to fri and to finish by 07:00 on sat, sun, new.water:4")]
    [InlineData("start at 07:00 on sat, sun", "start at 07:00",
        "morning: start 06:00 on mon to fri and 07:00 on sat, sun → 06:00 on mon to fri and 07:00, new.water:4")]
    public void Days_of_a_start_are_shown_as_they_are_written(string old, string @new, string text)
    {
        var source = Good.Replace("start at 06:00", "start at 06:00 on mon to fri; start at 07:00 on sat, sun", StringComparison.Ordinal);
        Write("old.water", source);
        Write("new.water", source.Replace(old, @new, StringComparison.Ordinal));
        Assert.Contains(text, Words(RunLine("diff old.water new.water").Output), StringComparison.Ordinal);
    }

    [Fact]
    public void Water_is_said_as_the_file_counts_it()
    {
        var source = Good.Replace("flow 10 L/min", "flow 2.5 gpm", StringComparison.Ordinal);
        Write("old.water", source);
        Write("new.water", source.Replace("for 10 min", "for 20 min", StringComparison.Ordinal));
        Assert.Contains("lawn 175 → 350 gal (+100 %)", RunLine("diff old.water new.water").Output, StringComparison.Ordinal);
        Assert.Contains("\"old_l_per_week\": 662.45,", RunLine("diff old.water new.water --report json").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_season_says_what_is_lost_and_gives_the_mean_of_its_weeks()
    {
        var source = Good.Replace("every day;", "every day; from 1 may to 30 sep;", StringComparison.Ordinal);
        Write("old.water", source);
        Write("new.water", source.Replace("1 may to 30 sep", "1 jun to 31 aug", StringComparison.Ordinal));
        var words = Words(RunLine("diff old.water new.water").Output);
        Assert.Contains("season 1 may to 30 sep → 1 jun to 31 aug (306 → 184 dates, lost: 1 May to 31 May 2026, 1 Sep to 30 Sep 2026, and 2 more)", words,
            StringComparison.Ordinal);

        // 100 L a day on 92 of the 153 days of the longer season: 700 · 92 / 153.
        Assert.Contains("Per week: in season, lawn 700 → 421 L (−40 %)", words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_scale_gives_each_month()
    {
        var source = Good + "scale summer { jun 110 %; jul 120 % }\n";
        Write("old.water", source.Replace("every day;", "every day; scale summer;", StringComparison.Ordinal));
        Write("new.water", source.Replace("every day;", "every day; scale summer;", StringComparison.Ordinal).Replace("jul 120 %", "jul 130 %; aug 90 %",
            StringComparison.Ordinal));
        var words = Words(RunLine("diff old.water new.water").Output);
        Assert.Contains("scale summer: jul 120 → 130 %; aug 90 % added, new.water:5", words, StringComparison.Ordinal);
        Assert.Contains("morning: run times Jul 120 → 130 %, Aug 100 → 90 %", words, StringComparison.Ordinal);
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
        Assert.Contains("beds 70 → 140 L (+100 %)", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        Assert.Equal(0, RunLine("diff HEAD:./sub/site.water :sub/site.water").ExitCode);
        Assert.Contains("git knows no revision gone", RunLine("diff gone:sub/site.water sub/site.water").Error, StringComparison.Ordinal);
        Assert.Contains("no such file in HEAD: site.water", RunLine("diff HEAD:site.water sub/site.water").Error, StringComparison.Ordinal);
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

    /// <summary>The words of a report, wherever a line ends.</summary>
    private static string Words(string report) => string.Join(' ', report.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
