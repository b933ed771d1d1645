using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Documentation;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>Every rule belongs to one category, so that the verdict can say what was looked at.</summary>
public class RuleCategoryTests
{
    public static TheoryData<string> Folders =>
        [.. Directory.EnumerateDirectories(Path.Combine(Repository.Root, "src/WaterScript/Linting/Rules")).Select(path => Path.GetFileName(path)!)];

    [Fact]
    public void Every_category_is_listed_once_and_has_a_name_of_its_own()
    {
        Assert.Equal(Enum.GetValues<RuleCategory>(), RuleCategories.All);
        Assert.Distinct(RuleCategories.All.Select(RuleCategories.NameOf));
    }

    [Fact]
    public void Every_category_has_a_rule() =>
        Assert.All(RuleCategories.All, category => Assert.Contains(RuleCatalogue.Rules, rule => rule.Category == category));

    [Theory]
    [MemberData(nameof(Folders))]
    public void The_rules_of_a_folder_are_of_one_category(string folder)
    {
        var sources = Directory.EnumerateFiles(Path.Combine(Repository.Root, "src/WaterScript/Linting/Rules", folder), "*.cs")
            .Select(File.ReadAllText).ToArray();
        var rules = RuleCatalogue.Rules
            .Where(rule => sources.Any(source => source.Contains($"Rule Rule {{ get; }} = new(\"{rule.Slug}\"", StringComparison.Ordinal))).ToArray();
        Assert.NotEmpty(rules);
        Assert.Single(rules.Select(rule => rule.Category).Distinct());
    }
}
