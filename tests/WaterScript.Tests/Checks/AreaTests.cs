using WaterScript.Checks;
using Xunit;

namespace WaterScript.Tests.Checks;

/// <summary>Every rule, built or to come, belongs to one area, so that the verdict can say what was looked at.</summary>
public class AreaTests
{
    [Fact]
    public void Every_rule_has_one_area() =>
        Assert.All(
            Catalogue.Rules.Select(rule => rule.Slug).Concat(Catalogue.ToCome).Distinct(),
            slug => Assert.Single(Area.All, area => area.Slugs.Contains(slug)));

    [Fact]
    public void Every_rule_of_an_area_is_built_or_to_come() =>
        Assert.All(Area.All.SelectMany(area => area.Slugs), slug => Assert.True(Catalogue.ToCome.Contains(slug) != (Catalogue.Find(slug) is not null), slug));
}
