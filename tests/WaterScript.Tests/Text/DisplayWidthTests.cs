using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Text;

/// <summary>
/// What terminals need: as wcwidth of Markus Kuhn and its successors count columns, and Unicode Standard Annex 11 says which characters are wide.
/// </summary>
public sealed class DisplayWidthTests
{
    [Theory]
    [InlineData("", 0)]
    [InlineData("Beet 1", 6)]
    [InlineData("e\u0301", 1)]
    [InlineData("Büsche", 6)]
    [InlineData("庭", 2)]
    [InlineData("\u1112\u1161\u11AB", 2)]
    [InlineData("ｱ", 1)]
    [InlineData("Ａ", 2)]
    [InlineData("\u200B", 0)]
    [InlineData("☀", 1)]
    [InlineData("☀\uFE0F", 2)]
    [InlineData("1\uFE0F\u20E3", 2)]
    [InlineData("\U0001F44D\U0001F3FD", 2)]
    [InlineData("\U0001F1F5\U0001F1F9", 2)]
    [InlineData("\U0001F468\u200D\U0001F33E", 2)]
    [InlineData("\U0001F469\u200D\U0001F469\u200D\U0001F467", 2)]
    [InlineData("a\tb", 3)]
    public void A_text_takes_so_many_columns(string text, int columns) => Assert.Equal(columns, DisplayWidth.Of(text));

    [Fact]
    public void A_long_text_is_measured_at_once() => Assert.Equal(2_000_000, DisplayWidth.Of(new string('庭', 1_000_000)));
}
