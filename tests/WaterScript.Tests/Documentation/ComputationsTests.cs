using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The page of the computations names the code and the test of each formula; what is renamed must not leave it behind.</summary>
public partial class ComputationsTests
{
    [Fact]
    public void Every_test_that_the_page_names_is_there()
    {
        var named = TestName().Matches(Repository.Read("docs/the-computations.md")).Select(match => match.Groups["name"].Value).Distinct().ToArray();
        var there = typeof(ComputationsTests).Assembly.GetTypes().SelectMany(type => type.GetMethods()).Select(method => method.Name).ToHashSet();
        Assert.True(named.Length > 20, string.Join(' ', named));
        Assert.Empty(named.Except(there));
    }

    [Fact]
    public void Every_file_of_the_code_that_the_page_names_is_there()
    {
        var named = CodePath().Matches(Repository.Read("docs/the-computations.md")).Select(match => match.Groups["path"].Value).Distinct().ToArray();
        Assert.True(named.Length > 20, string.Join(' ', named));
        Assert.All(named, path => Assert.True(Path.Exists(Path.Combine(Repository.Root, "src/WaterScript", path)), path));
    }

    [GeneratedRegex("`(?<path>[A-Z][A-Za-z]+(/[A-Z][A-Za-z]+)*(/[A-Z][A-Za-z]+\\.cs|/[A-Z][A-Za-z]+))`")]
    private static partial Regex CodePath();

    [GeneratedRegex("`(?<name>[A-Z][a-zA-Z0-9]*(_[a-zA-Z0-9]+)+)`")]
    private static partial Regex TestName();
}
