using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The page of the computations names the test that holds each formula; a test that is renamed must not leave it behind.</summary>
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

    [GeneratedRegex("`(?<name>[A-Z][a-zA-Z0-9]*(_[a-zA-Z0-9]+)+)`")]
    private static partial Regex TestName();
}
