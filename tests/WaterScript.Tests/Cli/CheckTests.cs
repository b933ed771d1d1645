using System.Text;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class CheckTests : Workshop
{
    [Fact]
    public void A_good_file_says_what_was_looked_at_and_what_was_not()
    {
        Write("site.water", Good);
        var result = Run("check", "site.water");
        Assert.Equal((
            """
            Garden: no findings, but only days and times were checked, 1 Mar 2026 to 29 Feb 2028.
            Not checked: flow (add supply), power (add power), wires (add wire), 3 more (--missing).

            """.ReplaceLineEndings("\n"), "", 0), (result.Output, result.Error, result.ExitCode));
    }

    [Fact]
    public void A_mistake_is_shown_in_its_line_and_makes_the_status_one()
    {
        Write("site.water", Good.Replace("water lawn,", "water lawm,", StringComparison.Ordinal));
        var result = Run("check", "site.water");
        Assert.Contains("error: no zone is called \"lawm\"", result.Output, StringComparison.Ordinal);
        Assert.Contains("  site.water:4:61\n", result.Output, StringComparison.Ordinal);
        Assert.Contains("      | " + new string(' ', 60) + "^^^^", result.Output, StringComparison.Ordinal);
        Assert.Contains("Garden: 1 error.\nThe timetable was not checked because of this error.\ncheck --fix corrects it.\n", result.Output,
            StringComparison.Ordinal);
        Assert.DoesNotContain('\e', result.Output);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
    }

    [Fact]
    public void A_warning_counts_only_when_strict()
    {
        // Clocks in Lisbon go from 01:00 to 02:00 on the last Sunday of March.
        Write("site.water", Good.Replace("06:00", "01:30", StringComparison.Ordinal));
        var result = Run("check", "site.water");
        Assert.Contains("warning: ", result.Output, StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);
        Assert.Equal(1, Run("check", "--strict", "site.water").ExitCode);
    }

    [Fact]
    public void What_is_accepted_is_counted_and_shown_when_asked_for()
    {
        Write("site.water", Good.Replace("start at 06:00", "start at 01:30; accept skipped-time because \"once a year\"; accept doubled-time because \"first\"",
            StringComparison.Ordinal));
        var quiet = Run("check", "--strict", "site.water");
        Assert.StartsWith("Garden: no findings, 2 accepted, but only days and times were checked", quiet.Output, StringComparison.Ordinal);
        Assert.Equal(0, quiet.ExitCode);
        var shown = Run("check", "--strict", "--show-accepted", "site.water");
        Assert.StartsWith("accepted warning: the clock skips 01:30 on Sun 29 Mar 2026 [skipped-time]\n  site.water:4:", shown.Output, StringComparison.Ordinal);
        Assert.Contains("--- \"once a year\"\n", shown.Output, StringComparison.Ordinal);
        Assert.Equal(0, shown.ExitCode);
    }

    [Theory]
    [InlineData("json", "{\n  \"waterscript_report\": 1,")]
    [InlineData("sarif", "{\n  \"$schema\": \"https://docs.oasis-open.org/")]
    [InlineData("github", "::error file=site.water,line=4,")]
    [InlineData("text", "error: no zone is called \"lawm\" [unknown-name]\n")]
    public void A_report_goes_where_it_is_sent(string form, string start)
    {
        Write("site.water", Good.Replace("water lawn,", "water lawm,", StringComparison.Ordinal));
        var shown = Run("check", "site.water", "--report", form);
        Assert.StartsWith(start, shown.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (shown.Error, shown.ExitCode));
        var written = Run("check", "site.water", "--report", form, "-o", "report");
        Assert.Equal(("", "", 1), (written.Output, written.Error, written.ExitCode));
        Assert.Equal(shown.Output, Read("report"));
    }

    [Fact]
    public void A_report_has_the_others_when_a_file_is_missing_and_the_status_says_so()
    {
        Write("good.water", Good);
        var result = Run("check", "good.water", "missing.water", "--report", "json");
        Assert.Equal((Run("check", "good.water", "--report", "json").Output, "waterscript: no such file: missing.water\n", 2),
            (result.Output, result.Error, result.ExitCode));
        Assert.Contains("did you mean sarif?", Run("check", "good.water", "--report", "sariff").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void From_another_date_the_horizon_begins_there()
    {
        Write("site.water", Good);
        Assert.Contains("checked, 1 Jul 2027 to 30 Jun 2029.", Run("check", "--from", "2027-07-01", "site.water").Output, StringComparison.Ordinal);
        Assert.Equal(
            "waterscript: --from needs a date such as 2026-05-01, not July\n", Run("check", "--from", "July", "site.water").Error);
    }

    [Fact]
    public void Many_sites_are_reported_in_the_order_in_which_they_are_named()
    {
        string[] names = [.. Enumerable.Range(0, 40).Select(number => $"site-{number:00}")];
        foreach (var name in names) Write($"{name}.water", Good.Replace("06:00", "01:30", StringComparison.Ordinal));
        var reported = Run("check", ".").Output.Split('\n').Where(line => line.StartsWith("  site-", StringComparison.Ordinal))
            .Select(line => line.Trim().Split('.')[0]).Distinct();
        Assert.Equal(names, reported);
    }

    [Fact]
    public void A_folder_is_every_site_in_it_in_order()
    {
        Write("b/site.water", Good.Replace("Garden", "Second", StringComparison.Ordinal) + "include \"parts/zones.water\"\n");
        Write("b/parts/zones.water", "zone more { output 3; spare }\n");
        Write("a.water", Good.Replace("Garden", "First", StringComparison.Ordinal));
        Write("stray.water", "zone lost { output 1 }\n");
        Write(".hidden/site.water", "site");
        Write("notes.txt", "site");
        var result = Run("check", ".");
        string[] starts = ["stray.water: not checked, ", "2 sites: no findings. ", "Not checked: flow in all (add supply), "];
        var lines = result.Output.TrimEnd().Split('\n');
        Assert.Equal(starts.Length, lines.Length);
        Assert.All(lines.Zip(starts), line => Assert.StartsWith(line.Second, line.First, StringComparison.Ordinal));
        Assert.Equal(0, result.ExitCode);
    }

    [Fact]
    public void Several_files_have_the_worst_of_their_statuses()
    {
        Write("good.water", Good);
        Write("bad.water", "sit garden { }");
        Assert.Equal(1, Run("check", "bad.water", "good.water").ExitCode);
        Assert.Equal(0, Run("check", "good.water", "good.water").ExitCode);
    }

    [Fact]
    public void What_was_found_before_a_file_that_is_missing_is_shown()
    {
        Write("good.water", Good);
        var result = Run("check", "good.water", "missing.water");
        Assert.StartsWith("Garden: no findings", result.Output, StringComparison.Ordinal);
        Assert.Equal(("waterscript: no such file: missing.water\n", 2), (result.Error, result.ExitCode));
    }

    [Fact]
    public void Standard_input_is_a_file_too()
    {
        var result = WaterscriptProgram.Run(Folder, Encoding.UTF8.GetBytes(Good.Replace("lawn,", "lawm,", StringComparison.Ordinal)), [], "check", "-");
        Assert.Contains("  -:4:61\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
    }

    [Fact]
    public void A_letter_that_is_not_utf_8_is_shown_at_its_place()
    {
        Write("site.water", Encoding.Latin1.GetBytes("# für den Rasen\n" + Good));
        var result = Run("check", "site.water");
        Assert.Contains("error: this letter is not written in UTF-8 [syntax]\n  site.water:1:4\n     1 | # f\uFFFDr den Rasen\n       |    ^\n", result.Output,
            StringComparison.Ordinal);
        Assert.Contains("Garden: 1 error.", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
    }

    [Fact]
    public void A_file_that_is_named_twice_is_checked_once()
    {
        var result = WaterscriptProgram.Run(Folder, Encoding.UTF8.GetBytes(Good), [], "check", "-", "-");
        Assert.Equal(1, result.Output.Split("no findings").Length - 1);
        Assert.DoesNotContain("there is no site", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_byte_order_mark_and_windows_line_ends_change_nothing()
    {
        Write("site.water", [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(Good.ReplaceLineEndings("\r\n"))]);
        Assert.StartsWith("Garden: no findings", Run("check", "site.water").Output, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(NoTexts))]
    public void What_is_no_text_is_one_finding(byte[] bytes)
    {
        Write("site.water", bytes);
        var result = Run("check", "site.water");
        Assert.Contains("error: this is not text in UTF-8 [syntax]", result.Output, StringComparison.Ordinal);
        var fix = bytes[0] == 0xFF
            ? "  Fix: save it as UTF-8 where it was written; it is UTF-16, which some programs call Unicode.\n"
            : "  Fix: save it as UTF-8, in the program";
        Assert.Contains(fix, result.Output, StringComparison.Ordinal);
        Assert.Contains("site.water: 1 error.", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
    }

    public static TheoryData<byte[]> NoTexts =>
        [Encoding.Unicode.GetPreamble(), [0x89, (byte)'P', (byte)'N', (byte)'G', 0, 0, 1],
        [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(Good)], [0]];

    [Theory]
    [InlineData("")]
    [InlineData("\n\n# nothing\n")]
    public void A_file_without_a_site_says_so(string text)
    {
        Write("site.water", text);
        var result = Run("check", "site.water");
        Assert.Contains("error: ", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
    }

    [Theory]
    [InlineData("check", "check needs a file")]
    [InlineData("check missing.water", "no such file: missing.water")]
    [InlineData("check . ", "no .water file with a site in .")]
    [InlineData("check --root nowhere site.txt", "no such folder: nowhere (from --root)")]
    public void What_cannot_run_says_why_and_hands_back_two(string line, string why)
    {
        Write("site.txt", Good);
        var result = RunLine(line);
        Assert.StartsWith("waterscript: ", result.Error, StringComparison.Ordinal);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
    }

    [Fact]
    public void A_file_longer_than_the_limit_ends_at_once()
    {
        Write("site.water", Good + new string('#', 30_000_000));
        var result = Run("check", "site.water");
        Assert.Contains("[over-limit]", result.Output, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
    }
}
