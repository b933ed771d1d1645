using WaterScript.Text.Lines;
using Xunit;

namespace WaterScript.Tests.Diagnostics;

public sealed class PlainLinesTests
{
    /// <summary>
    /// Emoji from emoji-zwj-sequences.txt and emoji-variation-sequences.txt of Unicode 16; Persian and Sinhala words with the joiners of UAX 31, 2.3.
    /// </summary>
    [Theory]
    [InlineData("Rosen am Haus, 3 m²")]
    [InlineData("👩\u200D🌾 ❤\uFE0F 1\uFE0F\u20E3 👩🏽\u200D🌾 👁\uFE0F\u200D🗨\uFE0F")]
    [InlineData("باغ\u200Cها")]
    [InlineData("ශ\u0DCA\u200Dරී")]
    [InlineData("庭 cafe\u0301")]
    public void What_people_write_stays(string text) => Assert.Equal(text, PlainLines.Shown(text));

    [Theory]
    [InlineData("\e]0;x\a", "<U+001B>]0;x<U+0007>")]
    [InlineData("a\u200Db", "a<U+200D>b")]
    [InlineData("a\u200Cb", "a<U+200C>b")]
    [InlineData("a\uFE0F", "a<U+FE0F>")]
    [InlineData("👩\uFE0F\uFE0F", "👩\uFE0F<U+FE0F>")]
    [InlineData("a\U000E0041", "a<U+E0041>")]
    [InlineData("a\U000E0100", "a<U+E0100>")]
    [InlineData("\u3164", "<U+3164>")]
    [InlineData("a\r\nb\u2028c\u0085", "a<U+000D><U+000A>b<U+2028>c<U+0085>")]
    [InlineData("  ::error::x", "  <U+003A>:error::x")]
    [InlineData("a::b ##x", "a::b ##x")]
    [InlineData("###[x] ##vso[y]", "#<U+0023>#[x] <U+0023>#vso[y]")]
    public void What_hides_or_commands_is_named(string text, string shown) => Assert.Equal(shown, PlainLines.Shown(text));

    /// <summary>Half of a pair is no character, and no encoding of a terminal has it.</summary>
    [Fact]
    public void A_lone_surrogate_is_replaced() => Assert.Equal("\uFFFDx", PlainLines.Shown("\uD800x"));

    [Fact]
    public void A_page_keeps_its_lines_and_a_line_is_one()
    {
        using var output = new StringWriter();
        var lines = new PlainLines(output);
        lines.Page("a\n\n\e b\n");
        lines.Line("c\nd");
        Assert.Equal("a\n\n<U+001B> b\nc<U+000A>d\n", output.ToString());
    }

    [Fact]
    public void No_command_begins_in_one_colour_and_ends_in_another()
    {
        using var output = new StringWriter();
        new PlainLines(output, hasColour: true).Line(("#", TextStyle.Red), ("#[x]", TextStyle.Plain));
        Assert.Equal("<U+0023>#[x]\n", output.ToString());
    }

    [Theory]
    [InlineData("Bed #3 @ 5 L/min, a-b", "Bed `#`3 \\@ 5 L/min, a-b")]
    [InlineData("@team", "\\<U+0040\\>team")]
    [InlineData("https://x www.y", "https\\<U+003A\\>//x www\\<U+002E\\>y")]
    [InlineData("mailto:a@b", "mailto\\<U+003A\\>a\\<U+0040\\>b")]
    [InlineData("- a", "\\- a")]
    [InlineData("12. a", "12\\. a")]
    [InlineData("    a", "a")]
    [InlineData("a\n# b", "a\\<U+000A\\>\\# b")]
    [InlineData("[x](y) <z> `c` |", "\\[x\\](y) \\<z\\> \\`c\\` \\|")]
    public void Markdown_says_what_it_says(string text, string escaped) => Assert.Equal(escaped, MarkdownLines.Escaped(text));
}
