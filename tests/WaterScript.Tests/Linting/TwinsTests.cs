using WaterScript.Diagnostics;
using WaterScript.Tests.Binding;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>
/// Twins under <c>tests/Cases/twins</c>: of each pair of sites, which differ in a number or a word, the dangerous one is found by its rule, and in the other
/// there is neither that nor any error or warning.
/// </summary>
public class TwinsTests
{
    private const string DefaultSite = "site s { timezone Etc/UTC; effective 2026-03-01 }\n";

    private static readonly Dictionary<string, string> Pairs = new(
        Directory.EnumerateFiles(Path.Combine(Repository.Root, "tests/Cases/twins"), "*.txt").SelectMany(file => Read(File.ReadAllText(file))),
        StringComparer.Ordinal);

    public static TheoryData<string> Names => [.. Pairs.Keys.Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_dangerous_twin_is_found_and_the_other_is_silent(string name)
    {
        var rule = name[..name.IndexOf(':', StringComparison.Ordinal)];
        var dangerous = Checked.Of(Chosen(Pairs[name], 0));
        Assert.True(dangerous.Findings.Any(finding => finding.Rule.Slug == rule), string.Join('\n', dangerous.Findings.Select(Expect.Shown)));
        var harmless = Checked.Of(Chosen(Pairs[name], 1));
        Assert.NotNull(harmless.Lint);
        Assert.Empty(harmless.Findings.Where(finding => finding.Rule.Slug == rule || finding.Severity > Severity.Advice).Select(Expect.Shown));
    }

    private static IEnumerable<KeyValuePair<string, string>> Read(string file) => file.ReplaceLineEndings("\n").Split("\n== ").Skip(1).Select(section =>
    {
        var (name, text) = (section[..section.IndexOf('\n', StringComparison.Ordinal)], section[(section.IndexOf('\n', StringComparison.Ordinal) + 1)..]);
        return KeyValuePair.Create(name, text.StartsWith("site ", StringComparison.Ordinal) ? text : DefaultSite + text);
    });

    /// <summary>One of the two in each <c>{{first|second}}</c>.</summary>
    private static string Chosen(string text, int which)
    {
        var parts = text.Split("{{");
        return parts[0] + string.Concat(parts.Skip(1).Select(part =>
        {
            var end = part.IndexOf("}}", StringComparison.Ordinal);
            return part[..end].Split('|')[which] + part[(end + 2)..];
        }));
    }
}
