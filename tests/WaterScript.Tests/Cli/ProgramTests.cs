using WaterScript.Checks;
using WaterScript.Diagnostics;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class ProgramTests : Workshop
{
    [Fact]
    public void Version_is_a_number() => Assert.Matches("^[0-9]+\\.[0-9]+\\.[0-9]+\n$", Run("--version").Output);

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
        Assert.Equal(Catalogue.Rules.Length, list.TrimEnd().Split('\n').Length);
        Assert.Distinct(Catalogue.Rules.Select(rule => rule.Slug));
        Assert.All(Catalogue.Rules, rule => Assert.Contains($"{rule.Slug} ", list, StringComparison.Ordinal));
        var page = Run("explain", Rules.Missing.Slug);
        Assert.Equal(RulePage.Of(Rules.Missing), page.Output);
        Assert.Equal(0, page.ExitCode);
    }

    [Fact]
    public void The_program_under_test_is_the_one_that_is_asked_for() => Assert.True(File.Exists(WaterscriptProcess.Path), WaterscriptProcess.Path);
}
