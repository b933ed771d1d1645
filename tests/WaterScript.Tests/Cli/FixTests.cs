using System.Text;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>Safe fixes are applied until none is left; nothing else of a file changes, and no fix gives a new error.</summary>
public sealed class FixTests : Workshop
{
    private static string Bad => Good.Replace("water lawn,", "water lawm,", StringComparison.Ordinal).Replace("10 min", "10min", StringComparison.Ordinal);

    [Fact]
    public void Fixes_are_applied_and_what_is_left_is_reported()
    {
        Write("site.water", Bad);
        var result = Run("check", "--fix", "site.water");
        Assert.Equal(Good, Read("site.water"));
        Assert.StartsWith(
            "site.water:4:61: write `lawn` for \"lawm\"\n"
            + "site.water:4:76: write `10 min` for \"10min\"\nsite.water: 2 fixes applied.\nGarden: no findings, but only days",
            result.Output,
            StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);
        Assert.StartsWith("Garden: no findings", Run("check", "--fix", "site.water").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_diff_shows_them_and_writes_nothing()
    {
        Write("site.water", Bad);
        var result = Run("check", "--fix", "--diff", "site.water");
        var lines = Bad.Split('\n');
        Assert.Equal(
            $"--- site.water\n+++ site.water\n@@ -1,4 +1,4 @@\n {lines[0]}\n {lines[1]}\n {lines[2]}\n-{lines[3]}\n+{Good.Split('\n')[3]}\n",
            result.Output);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        Assert.Equal(Bad, Read("site.water"));
        Assert.Equal(result.Output, Run("check", "--diff", "site.water").Output);
    }

    [Fact]
    public void Line_ends_and_a_byte_order_mark_stay()
    {
        byte[] Bytes(string text) => [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text.Replace("\n", "\r\n", StringComparison.Ordinal))];
        Write("site.water", Bytes(Bad));
        Run("check", "--fix", "site.water");
        Assert.Equal(Bytes(Good), File.ReadAllBytes(PathOf("site.water")));
    }

    [Fact]
    public void Included_files_are_fixed_where_the_mistake_is()
    {
        const string Root =
            "site garden \"Garden\" { timezone Europe/Lisbon; effective 2026-03-01 }\ninclude \"parts/zones.water\"\ninclude \"parts/times.water\"\n";
        Write("site.water", Root);
        Write("parts/zones.water", "zone lawn { output 1 }\nzone beds { output 2; colour 3 }\n");
        Write("parts/times.water", "schedule morning { every day; start at 06:00; steps { water lawm, beds for 10min } }\n");
        var result = Run("check", "--fix", "site.water");
        Assert.StartsWith(
            "parts/times.water:1:61: write `lawn` for \"lawm\"\n"
            + "parts/times.water:1:76: write `10 min` for \"10min\"\nparts/times.water: 2 fixes applied.\n", result.Output, StringComparison.Ordinal);
        Assert.Equal("schedule morning { every day; start at 06:00; steps { water lawn, beds for 10 min } }\n", Read("parts/times.water"));
        Assert.Equal(Root, Read("site.water"));
        Assert.Equal(1, result.ExitCode);
    }

    [Fact]
    public void A_fix_that_would_give_another_error_is_left()
    {
        // The schedules would start after one another.
        var text = $"{Good}schedule noon {{ start after evening; steps {{ water lawn for 1 min }} }}\n"
            + "schedule evening { start after noom; steps { water lawn for 1 min } }\n";
        Write("site.water", text);
        var result = Run("check", "--fix", "site.water");
        Assert.Contains("site.water:6:32: not applied, it would give another error: write `noon`\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(text, Read("site.water"));
        Assert.Equal(1, result.ExitCode);
    }

    /// <summary>
    /// The front accepts in its zones what only the back does: its lawn is watered at 01:30, which the clocks of Lisbon skip on 29 March
    /// 2026. Seen from the front alone, the line accepts nothing.
    /// </summary>
    [Theory]
    [InlineData("check", "--fix", "front.water", "back.water")]
    [InlineData("check", "--fix", "back.water", "front.water")]
    public void A_fix_in_a_shared_file_is_weighed_against_all_sites_that_read_it(params string[] command)
    {
        const string Shared = "zone lawn { output 1 }\naccept skipped-time because \"the lawn can wait\"\nsequence all { water lawn for 10min }\n"
            + "schedule night { every day; start at 01:30; steps { run all } }\n";
        const string NoClock = "site front { timezone Etc/UTC; effective 2026-03-01 }\ninclude \"shared.water\"\n";
        const string Clock = "site back { timezone Europe/Lisbon; effective 2026-03-01 }\ninclude \"shared.water\"\n";
        Write("front.water", NoClock);
        Write("back.water", Clock);
        Write("shared.water", Shared);
        var result = Run(command);
        Assert.Contains("shared.water:2:1: not applied, since back.water uses what front.water does not: delete the line", result.Output,
            StringComparison.OrdinalIgnoreCase);
        Assert.Contains("shared.water: 1 fix applied.", result.Output, StringComparison.Ordinal);
        Assert.Equal(Shared.Replace("10min", "10 min", StringComparison.Ordinal), Read("shared.water"));

        Run("check", "--fix", "front.water");
        Assert.DoesNotContain("accept", Read("shared.water"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_shared_file_is_shown_once_in_a_diff()
    {
        Write("shared.water", "zone lawn { output 1 }\nschedule day { every day; start at 06:00; steps { water lawn for 10min } }\n");
        foreach (var name in (string[])["a", "b"]) Write($"{name}.water",
            $"site {name} {{ timezone Etc/UTC; effective 2026-03-01 }}\ninclude \"shared.water\"\n");
        var diff = Run("check", "--diff", "a.water", "b.water").Output;
        Assert.Equal(2, diff.Split("--- shared.water\n").Length);
        Assert.Contains("+schedule day { every day; start at 06:00; steps { water lawn for 10 min } }\n", diff, StringComparison.Ordinal);
    }

    [Fact]
    public void A_line_that_accepts_nothing_goes_whole()
    {
        Write("site.water", Good + "accept skipped-time because \"night\"\n");
        Assert.Contains("1 fix applied", Run("check", "--fix", "site.water").Output, StringComparison.Ordinal);
        Assert.Equal(Good, Read("site.water"));
    }

    [Fact]
    public void A_file_that_is_not_written_in_utf_8_is_left()
    {
        byte[] bytes = Encoding.Latin1.GetBytes("# für den Rasen\n" + Bad);
        Write("site.water", bytes);
        Assert.Contains("site.water: no fix applied, not all of it is written in UTF-8.\n", Run("check", "--fix", "site.water").Output,
            StringComparison.Ordinal);
        Assert.Equal(bytes, File.ReadAllBytes(PathOf("site.water")));
    }

    [Fact]
    public void Standard_input_can_be_shown_only()
    {
        var input = Encoding.UTF8.GetBytes(Bad);
        Assert.StartsWith("--- -\n", WaterscriptProgram.Run(Folder, input, [], "check", "--diff", "-").Output, StringComparison.Ordinal);
        Assert.Equal(2, WaterscriptProgram.Run(Folder, input, [], "check", "--fix", "-").ExitCode);
    }

    [Fact]
    public void A_baseline_hides_what_was_there_and_an_edit_elsewhere_does_not_revive_it()
    {
        // The clocks of Lisbon skip 01:30 on 29 March 2026 and show it twice on 25 October.
        var old = Good.Replace("06:00", "01:30", StringComparison.Ordinal);
        Write("plots/site.water", old);
        Assert.StartsWith("Garden: no findings, 2 in the baseline", Run("check", "--strict", "plots", "--write-baseline", "base.txt").Output,
            StringComparison.Ordinal);
        Write("plots/site.water", "# one line more\n\n" + old.Replace("schedule morning {", "schedule   morning {", StringComparison.Ordinal));
        var hidden = Run("check", "--strict", "plots", "--baseline", "base.txt");
        Assert.StartsWith("Garden: no findings, 2 in the baseline", hidden.Output, StringComparison.Ordinal);
        Assert.Equal(0, hidden.ExitCode);
        Write("plots/site.water", old + "schedule other { every day; start at 01:40; steps { water lawn for 1 min } }\n");
        Assert.Contains("the clock skips 01:40", Run("check", "--strict", "plots", "--baseline", "base.txt").Output, StringComparison.Ordinal);
        Write("plots/site.water", Good);
        Assert.Contains("base.txt: 2 of its findings were not found here", Run("check", "plots", "--baseline", "base.txt").Output, StringComparison.Ordinal);
    }

    /// <summary>
    /// Names of files may hold what ends a line or a column of the baseline, or look like what is written for it; each stays a name of its own.
    /// </summary>
    [Fact]
    public void A_baseline_keeps_odd_names_of_files_apart()
    {
        if (OperatingSystem.IsWindows()) return;
        string[] names = ["a\nb", "a\tb", "a b", "a\\u000ab", "a\r\u2028b"];
        var old = Good.Replace("06:00", "01:30", StringComparison.Ordinal);
        foreach (var name in names) Write($"plots/{name}.water", old);
        Run("check", "--strict", "plots", "--write-baseline", "base.txt");
        Assert.Equal(1 + (3 * names.Length), File.ReadAllLines(PathOf("base.txt")).Length);
        Assert.Equal(0, Run("check", "--strict", "plots", "--baseline", "base.txt").ExitCode);
        foreach (var name in names)
        {
            Write($"plots/{name}.water", Good.Replace("06:00", "01:40", StringComparison.Ordinal));
            Assert.Equal(1, Run("check", "--strict", "plots", "--baseline", "base.txt").ExitCode);
            Write($"plots/{name}.water", old);
        }
    }

    [Fact]
    public void A_baseline_never_hides_a_file_that_cannot_be_read()
    {
        Write("site.water", Bad);
        var result = Run("check", "site.water", "--write-baseline", "base.txt");
        Assert.Contains("[unknown-name]", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
        Assert.Contains("is no baseline", Run("check", "site.water", "--baseline", "site.water").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_baseline_is_not_written_over_another_file()
    {
        Write("site.water", Good);
        Assert.Contains("site.water is no baseline", Run("check", "site.water", "--write-baseline", "site.water").Error, StringComparison.Ordinal);
        Assert.Equal(Good, File.ReadAllText(PathOf("site.water")));
    }
}
