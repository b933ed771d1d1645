using System.Text;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class FormatTests : Workshop
{
    private const string Untidy = "zone   lawn{output 1;valve ac24}\nzone borders{ output 2; valve ac24 }";
    private const string Tidy = "zone lawn    { output 1; valve ac24 }\nzone borders { output 2; valve ac24 }\n";
    private const string Broken = "zone lawn { output 1 }}\n";

    [Fact]
    public void A_file_is_laid_out_and_then_stays()
    {
        Write("site.water", Untidy);
        Assert.Equal(("1 file: 1 laid out anew, 0 already so.\n", "", 0), Answer("format site.water"));
        Assert.Equal(Tidy, Read("site.water"));
        var written = File.GetLastWriteTimeUtc(PathOf("site.water"));
        Assert.Equal(("1 file: 0 laid out anew, 1 already so.\n", "", 0), Answer("format site.water"));
        Assert.Equal(written, File.GetLastWriteTimeUtc(PathOf("site.water")));
        Assert.Equal(["site.water"], Names());
    }

    [Fact]
    public void Check_names_the_files_that_would_change_and_leaves_them()
    {
        Write("a.water", Untidy);
        Write("b.water", Tidy);
        Write("c/d.water", Untidy);
        Assert.Equal(("a.water\nc/d.water\n", "2 files would change.\nTo lay them out: waterscript format a.water c/d.water\n", 1),
            Answer("format --check ."));
        Assert.Equal(Untidy, Read("a.water"));
        Assert.Equal(("", "", 0), Answer("format --check b.water"));
        Assert.EndsWith(
            "0 files would change. 1 was not read because of errors: \"\".\n",
            Run("format", "--check", "", "b.water").Error,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Diff_shows_what_would_change_and_leaves_it()
    {
        Write("a.water", Untidy);
        const string Diff = "--- a.water\n+++ a.water\n@@ -1,2 +1,2 @@\n-zone   lawn{output 1;valve ac24}\n-zone borders{ output 2; valve ac24 }\n"
            + "\\ No newline at end of file\n"
            + "+zone lawn    { output 1; valve ac24 }\n+zone borders { output 2; valve ac24 }\n";
        Assert.Equal((Diff, "", 0), Answer("format --diff a.water"));
        Assert.Equal((Diff, "To lay it out: waterscript format a.water\n", 1), Answer("format --diff --check a.water"));
        Assert.Equal(Untidy, Read("a.water"));
    }

    [Fact]
    public void A_file_with_an_error_is_shown_and_left_and_the_others_are_laid_out()
    {
        Write("a.water", Broken);
        Write("b.water", Untidy);
        var (output, error, code) = Answer("format .");
        Assert.Equal("2 files: 1 laid out anew, 0 already so, 1 left because of errors.\n", output);
        Assert.StartsWith("error: a closing brace that closes nothing [syntax]\n  a.water:1:23\n", error, StringComparison.Ordinal);
        Assert.EndsWith("a.water: 1 error. Left as it is.\n", error, StringComparison.Ordinal);
        Assert.Equal(1, code);
        Assert.Equal((Broken, Tidy), (Read("a.water"), Read("b.water")));
    }

    [Fact]
    public void Standard_input_comes_out_on_standard_output()
    {
        var result = WaterscriptProgram.Run(Folder, Encoding.UTF8.GetBytes(Untidy), [], "format", "-");
        Assert.Equal((Tidy, "", 0), (result.Output, result.Error, result.ExitCode));
        Assert.Equal("-\n", WaterscriptProgram.Run(Folder, Encoding.UTF8.GetBytes(Untidy), [], "format", "--check", "-").Output);
        var broken = WaterscriptProgram.Run(Folder, Encoding.UTF8.GetBytes(Broken), [], "format", "-");
        Assert.Equal(("", 1), (broken.Output, broken.ExitCode));
    }

    [Fact]
    public void Windows_line_ends_and_a_byte_order_mark_stay()
    {
        Write("site.water", [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes("zone  lawn { output 1 } # für\r\n\r\n\nzone bed { output 2 }")]);
        Run("format", "site.water");
        var expected = "zone lawn { output 1 }                    # für\r\n\r\nzone bed { output 2 }\r\n";
        Assert.Equal([.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(expected)], File.ReadAllBytes(PathOf("site.water")));
    }

    [Fact]
    public void What_is_not_utf_8_is_left()
    {
        var bytes = Encoding.Latin1.GetBytes("# für\nzone  lawn { output 1 }\n");
        Write("site.water", bytes);
        var (_, error, code) = Answer("format site.water");
        Assert.Contains("this letter is not written in UTF-8", error, StringComparison.Ordinal);
        Assert.Equal(1, code);
        Assert.Equal(bytes, File.ReadAllBytes(PathOf("site.water")));
    }

    [Fact]
    public void A_mistake_that_is_none_of_reading_does_not_matter()
    {
        Write("site.water", Good.Replace("water lawn,", "water   lawm,", StringComparison.Ordinal));
        Assert.Equal(0, Run("format", "site.water").ExitCode);
        Assert.Contains("water lawm, beds", Read("site.water"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_site_has_the_same_hash_after_it()
    {
        Write("site.water", Good.Replace("; ", ";\n\n", StringComparison.Ordinal));
        var before = Compiled();
        Run("format", "site.water");
        Assert.Equal(before, Compiled());

        // Without the hash of the file itself, and the lines in it.
        string Compiled() => string.Join('\n', Run("compile", "site.water", "--to", "yaml").Output.Split('\n')
            .Where(line => !line.Contains("sources_sha256", StringComparison.Ordinal) && !line.Contains("file: ", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("format", "format needs a file")]
    [InlineData("format missing.water", "no such file: missing.water")]
    [InlineData("format .", "no .water file in .")]
    public void What_cannot_run_says_why_and_hands_back_two(string line, string why)
    {
        var (output, error, code) = Answer(line);
        Assert.Contains(why, error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (output, code));
    }

    private (string Output, string Error, int ExitCode) Answer(string line)
    {
        var result = RunLine(line);
        return (result.Output, result.Error, result.ExitCode);
    }
}
