using WaterScript.Language;
using Xunit;

namespace WaterScript.Tests.Syntax;

public class NamesTests
{
    [Theory]
    [InlineData("Rose Beds", "rose-beds")]
    [InlineData("north__bed_2", "north-bed-2")]
    [InlineData("Süd-Straße", "sued-strasse")]
    [InlineData("Jardín (año)", "jardin-ano")]
    [InlineData("9 pots", null)]
    [InlineData("庭", null)]
    [InlineData("", null)]
    public void TheNameMostLikeATextIsOneThatTheLanguageTakes(string text, string? name)
    {
        Assert.Equal(name, Names.Like(text));
        Assert.True(name is null || Names.IsWellFormed(name));
    }
}
