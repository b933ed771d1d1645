using WaterScript.Text.Lines;
using Xunit;

namespace WaterScript.Tests.Text.Lines;

public class WordWrapTests
{
    [Theory]
    [InlineData("one two three", 90, "one two three")]
    [InlineData("one two three", 13, "one two three")]
    [InlineData("one two three", 12, "one two|  three")]
    [InlineData("one two three", 5, "one|  two|  three")]
    [InlineData("  one two three", 9, "  one two|    three")]
    [InlineData("before 1 Mar 2026.", 12, "before|  1 Mar 2026.")]
    [InlineData("wires of 10 zones", 13, "wires of|  10 zones")]
    [InlineData("一二三 四五六", 12, "一二三|  四五六")]
    [InlineData("averylongword is", 5, "averylongword|  is")]
    [InlineData("a bcdefghijklmn o", 10, "a|  bcdefghijklmn|  o")]
    [InlineData("    abc def ghi", 10, "    abc|      def|      ghi")]
    [InlineData("cafe\u0301 abcdef", 11, "cafe\u0301 abcdef")]
    [InlineData("😀😀😀😀 ab", 10, "😀😀😀😀|  ab")]
    public void It_breaks_between_words(string words, int columns, string lines) => Assert.Equal(lines, string.Join('|', WordWrap.Of(words, columns)));
}
