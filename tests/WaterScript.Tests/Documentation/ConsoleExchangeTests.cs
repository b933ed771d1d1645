using Xunit;

namespace WaterScript.Tests.Documentation;

public class ConsoleExchangeTests
{
    private static List<ConsoleExchange> Read(string text) => [.. ConsoleExchange.Of(new("page.md", 1, ["console"], text))];

    [Fact]
    public void A_block_may_hold_several_commands()
    {
        var exchanges = Read("$ waterscript check a\n$ waterscript check b\nfirst\n\nsecond\n");

        Assert.Equal(["waterscript check a", "waterscript check b"], exchanges.Select(exchange => exchange.Command));
        Assert.Equal(["first", "", "second"], exchanges[1].Output);
    }

    [Theory]
    [InlineData("a\nb", "a\nb\n", true)]
    [InlineData("a\nb", "a\r\nb  ", true)]
    [InlineData("a\nb", "a\nc", false)]
    [InlineData("a\nb", "a\nb\nc", false)]
    [InlineData("a\nb", "a", false)]
    [InlineData("a\n…\nd", "a\nb\nc\nd", true)]
    [InlineData("a\n  …\nd", "a\nd", true)]
    [InlineData("…\nd\n…", "d", true)]
    [InlineData("a\n…\nd\n…\nf", "a\nd\ne\nd\nf", true)]
    [InlineData("a\n…\nd", "a\nb", false)]
    [InlineData("a\n…", "b\na", false)]
    public void Output_is_compared_line_by_line_with_what_is_left_out(string shown, string printed, bool same) =>
        Assert.Equal(same, Read("$ x\n" + shown)[0].IsShown(printed));

    [Fact]
    public void A_command_that_shows_nothing_prints_nothing()
    {
        var exchange = Assert.Single(Read("$ x\n"));

        Assert.True(exchange.IsShown(""));
        Assert.False(exchange.IsShown("a"));
    }

    [Fact]
    public void A_block_without_a_prompt_is_refused() =>
        Assert.Throws<FormatException>(() => Read("waterscript check a\n"));
}
