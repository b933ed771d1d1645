using WaterScript.Text.Lines;
using Xunit;

namespace WaterScript.Tests.Text;

/// <summary>Words in lines of a width, of which those after the first hang.</summary>
public class WrappedTextTests
{
    [Theory]
    [InlineData("", 10, "")]
    [InlineData("a sum", 10, "a sum")]
    [InlineData("abcde fghi", 10, "abcde fghi")]
    [InlineData("abcde fghij", 10, "abcde|  fghij")]
    [InlineData("abcde fgh ij klm no", 10, "abcde fgh|  ij klm|  no")]
    [InlineData("abcde ab cdefg", 10, "abcde ab|  cdefg")]
    [InlineData("abcde ab cd efg h", 10, "abcde ab|  cd efg h")]
    public void Lines_break_at_spaces_and_hang(string text, int columns, string lines) => Assert.Equal(lines, Wrapped(text, columns));

    [Theory]
    [InlineData("abcdefghijklmn", 10, "abcdefghijklmn")]
    [InlineData("a bcdefghijklmn o", 10, "a|  bcdefghijklmn|  o")]
    public void A_word_that_is_too_long_stands_alone(string text, int columns, string lines) => Assert.Equal(lines, Wrapped(text, columns));

    [Fact]
    public void What_is_indented_hangs_by_two_more() => Assert.Equal("    abc|      def|      ghi", Wrapped("    abc def ghi", 10));

    [Fact]
    public void Spaces_within_a_line_stay() => Assert.Equal("a   b", Wrapped("a   b", 10));

    /// <summary>A Chinese character and an emoji take two columns, an accent of its own none.</summary>
    [Theory]
    [InlineData("庭庭庭 庭庭", 10, "庭庭庭|  庭庭")]
    [InlineData("庭庭庭 庭b", 10, "庭庭庭 庭b")]
    [InlineData("cafe\u0301 abcdef", 11, "cafe\u0301 abcdef")]
    [InlineData("😀😀😀😀 ab", 10, "😀😀😀😀|  ab")]
    public void Columns_count(string text, int columns, string lines) => Assert.Equal(lines, Wrapped(text, columns));

    private static string Wrapped(string text, int columns) => string.Join('|', WrappedText.Of(text, columns));
}
