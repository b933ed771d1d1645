using WaterScript.Diagnostics.Reading;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class ProgramTests : Workshop
{
    [Fact]
    public void Version_is_a_number_with_the_commit() =>
        Assert.Matches("^[0-9]+\\.[0-9]+\\.[0-9]+(\\+[0-9a-f]{40})?\ntime-zone data [0-9]{4}[a-z]\n$", Run("--version").Output);

    [Theory]
    [InlineData("--help")]
    [InlineData("check --help")]
    [InlineData("compile --help")]
    [InlineData("explain -h")]
    public void Help_shows_usage(string line)
    {
        var result = RunLine(line);
        Assert.Contains("Usage:\n  waterscript ", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
    }

    [Fact]
    public void Every_rule_is_listed_and_explained()
    {
        var list = Run("explain").Output;
        Assert.Equal(RuleCatalogue.Rules.Length, list.TrimEnd().Split('\n').Length);
        Assert.Distinct(RuleCatalogue.Rules.Select(rule => rule.Slug));
        Assert.All(RuleCatalogue.Rules, rule => Assert.Contains($"{rule.Slug} ", list, StringComparison.Ordinal));
        var page = Run("explain", ReadingRules.Missing.Slug);
        Assert.Equal(RulePage.Of(ReadingRules.Missing, RuleExample.Finding(ReadingRules.Missing, NodaTime.DateTimeZoneProviders.Tzdb)), page.Output);
        Assert.Equal(0, page.ExitCode);
    }

    [Theory]
    [InlineData("help", "unknown command help; did you mean --help?")]
    [InlineData("site.water", "needs a command before site.water, such as check site.water")]
    public void A_newcomer_without_a_command_is_shown_how_to_go_on(string line, string answer)
    {
        Write("site.water", Good);
        Assert.Equal(($"waterscript: {answer}\n", 2), (RunLine(line).Error, RunLine(line).ExitCode));
    }

    /// <summary>Under the runtime's own host another file has taken the place of what is closed, and refuses.</summary>
    [Fact]
    public void A_closed_output_is_no_crash()
    {
        if (OperatingSystem.IsWindows()) return;
        Write("site.water", Good);
        var result = WaterscriptProcess.Shell(Folder, "\"$WATERSCRIPT\" check site.water >&-");
        Assert.Contains(result.Error, (string[])["waterscript: standard output is closed, so there is nowhere to write to\n",
            "waterscript: you are not allowed to\n"]);
        Assert.Equal(2, result.ExitCode);
    }

    [Fact]
    public void Whoever_writes_to_a_file_needs_no_output()
    {
        if (OperatingSystem.IsWindows()) return;
        Write("site.water", Good);
        Assert.Equal(0, WaterscriptProcess.Shell(Folder, "\"$WATERSCRIPT\" compile site.water --to yaml -o out.yaml >&- 2>&-").ExitCode);
        Assert.Contains("\nend:", Read("out.yaml"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_link_that_leads_to_itself_is_named()
    {
        if (OperatingSystem.IsWindows()) return;
        File.CreateSymbolicLink(PathOf("loop.water"), "loop.water");
        Assert.Equal("waterscript: loop.water leads nowhere: its links go round in a circle\n", Run("check", "loop.water").Error);
    }

    [Fact]
    public void The_program_under_test_is_the_one_that_is_asked_for() => Assert.True(File.Exists(WaterscriptProcess.Path), WaterscriptProcess.Path);
}
