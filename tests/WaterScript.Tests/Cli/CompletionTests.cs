using WaterScript.Linting.Engine;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>How a line may go on, as a shell asks for it.</summary>
public sealed class CompletionTests : Workshop
{
    [Theory]
    [InlineData("compile --to ", "csv icalendar json yaml")]
    [InlineData("compile site.water --to y", "yaml")]
    [InlineData("compile site.water --to csv --only ", "openings runs switchings")]
    [InlineData("compile site.water --to icalendar --events ", "day pass step")]
    [InlineData("check site.water --report ", "github json sarif text")]
    [InlineData("diff old.water new.water --report ", "json markdown text")]
    [InlineData("diff old.water new.water --only ", "devices findings water")]
    [InlineData("audit site.water log.csv --report ", "json markdown text")]
    [InlineData("explain over-lim", "over-limit")]
    [InlineData("nex", "next")]
    [InlineData("next --cou", "--count")]
    public void What_may_follow_is_offered(string line, string words) =>
        Assert.Equal(words.Split(' '), Offered(line));

    [Fact]
    public void Every_rule_is_offered_to_explain() =>
        Assert.Superset(RuleCatalogue.Rules.Select(rule => rule.Slug).ToHashSet(), Offered("explain ").ToHashSet());

    [Fact]
    public void Within_a_line_what_stands_before_the_place_counts() =>
        Assert.Equal(["yaml"], Lines(Run("[suggest:26]", "compile site.water --to yaml --days 3")));

    /// <summary>A line that is not finished yet, or has a value that nobody can read, is no mistake to report.</summary>
    [Theory]
    [InlineData("compile site.water --days x --to ")]
    [InlineData("why site.water lawn tomorrow --")]
    public void An_unfinished_line_is_not_refused(string line) => Assert.NotEmpty(Offered(line));

    [Fact]
    public void Help_comes_whatever_stands_beside_it() =>
        Assert.Contains("Usage:", RunLine("compile site.water --to xml --help").Output, StringComparison.Ordinal);

    private string[] Offered(string line) => Lines(Run($"[suggest:{line.Length}]", line));

    private static string[] Lines(WaterscriptProcess.Result result)
    {
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        return [.. result.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal)];
    }
}
