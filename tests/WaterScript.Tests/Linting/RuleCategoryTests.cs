using WaterScript.Linting.Engine;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>Every rule belongs to one area, so that the verdict can say what was looked at.</summary>
public class RuleCategoryTests
{
    [Fact]
    public void Every_rule_has_one_area() =>
        Assert.All(RuleCatalogue.Rules, rule => Assert.Single(RuleCategory.All, category => category.Slugs.Contains(rule.Slug)));

    [Fact]
    public void Every_rule_of_an_area_is_in_the_catalogue() =>
        Assert.All(RuleCategory.All.SelectMany(category => category.Slugs), slug => Assert.NotNull(RuleCatalogue.Find(slug)));
}
