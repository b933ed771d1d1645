using WaterScript.Checks;
using Xunit;

namespace WaterScript.Tests.Checks;

/// <summary>Every rule belongs to one area, so that the verdict can say what was looked at.</summary>
public class AreaTests
{
    [Fact]
    public void Every_rule_has_one_area() =>
        Assert.All(Catalogue.Rules, rule => Assert.Single(Area.All, area => area.Slugs.Contains(rule.Slug)));

    [Fact]
    public void Every_rule_of_an_area_is_in_the_catalogue() =>
        Assert.All(Area.All.SelectMany(area => area.Slugs), slug => Assert.NotNull(Catalogue.Find(slug)));
}
