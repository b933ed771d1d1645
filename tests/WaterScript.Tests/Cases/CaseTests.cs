using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Cases;

/// <summary>
/// What comes out of each source under <c>tests/Cases</c> is what stands beside it; <see cref="CaseFile"/> says how to accept another output.
/// </summary>
public sealed class CaseTests
{
    private const string Rules = "rules";

    public static TheoryData<string> RuleCases => CaseFile.Of(Rules);

    public static TheoryData<string> ParserCases => CaseFile.Of("parser");

    public static TheoryData<string> FormatterCases => CaseFile.Of("formatter");

    public static TheoryData<string> Slugs => [.. RuleCatalogue.Rules.Select(rule => rule.Slug)];

    [Theory]
    [MemberData(nameof(RuleCases))]
    public void Findings_are_those_beside_the_source(string name) => CaseFile.Matches(name, ".findings", InterleavedFindings.Of(CaseFile.Source(name)));

    [Theory]
    [MemberData(nameof(ParserCases))]
    public void The_tree_is_the_one_beside_the_source(string name) => CaseFile.Matches(name, ".tree", TreeText.Of(CaseFile.Source(name)));

    [Theory]
    [MemberData(nameof(FormatterCases))]
    public void The_layout_is_the_one_beside_the_source(string name)
    {
        var formatted = Format(CaseFile.Source(name));
        CaseFile.Matches(name, ".formatted", formatted);
        Assert.Equal(formatted, Format(SourceText.From("again.water", formatted)));
    }

    /// <summary>A rule has a case in which it fires, one in which it stays silent, and one at its limit.</summary>
    [Theory]
    [MemberData(nameof(Slugs))]
    public void A_rule_fires_stays_silent_and_has_a_limit(string slug)
    {
        var names = CaseFile.Of($"{Rules}/{slug}").Cast<object[]>().Select(row => (string)row[0]).ToArray();
        Assert.Contains(names, name => Path.GetFileName(name).StartsWith("edge", StringComparison.Ordinal));
        Assert.True(names.Length >= 3, $"{slug} has {names.Length} cases");
        Assert.Contains(names, name => Fires(name, slug));
        Assert.Contains(names, name => !Fires(name, slug));
    }

    private static bool Fires(string name, string slug) => InterleavedFindings.Of(CaseFile.Source(name)).Contains($" [{slug}]\n", StringComparison.Ordinal);

    private static string Format(SourceText source)
    {
        var findings = new FindingList();
        return Formatter.Format(source, findings)?.Text ?? $"not laid out: {string.Join("; ", findings.Select(finding => finding.Heading))}\n";
    }
}