using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Linting.Fixes;

public class FixSetTests
{
    private static readonly SourceText Source = SourceText.From("f", "abcdef");

    [Theory]
    [InlineData(0, 2, 2, 2, "XYef")]
    [InlineData(0, 3, 2, 2, "Xdef")]
    [InlineData(2, 2, 0, 3, "Ydef")]
    [InlineData(1, 0, 1, 0, "aXbcdef")]
    [InlineData(1, 2, 2, 0, "aXdef")]
    [InlineData(1, 2, 3, 0, "aXYdef")]
    public void Of_two_that_overlap_the_first_is_taken(int start, int length, int otherStart, int otherLength, string expected)
    {
        var together = FixSet.Together([Replacing(start, length, "X"), Replacing(otherStart, otherLength, "Y")]);
        Assert.Equal(expected, FixSet.Apply(together)["f"].Text);
    }

    [Fact]
    public void A_fix_of_several_edits_is_taken_whole_or_not_at_all()
    {
        var both = new Fix("both", IsSafe: true, [.. Replacing(2, 1, "X").Edits, .. Replacing(4, 1, "X").Edits]);
        Assert.Equal("aYcdef", FixSet.Apply(FixSet.Together([Replacing(1, 1, "Y"), Replacing(4, 1, "Z"), both])[..1])["f"].Text);
        Assert.Equal("abXdXf", FixSet.Apply(FixSet.Together([Replacing(4, 1, "Z"), both]))["f"].Text);
    }

    private static Fix Replacing(int start, int length, string replacement) => Fix.Safe("", new Location(Source, new TextSpan(start, length)), replacement);
}
