using Xunit;

namespace WaterScript.Tests.Documentation;

public class FencedBlockTests
{
    [Fact]
    public void A_block_knows_its_page_line_words_and_text()
    {
        var block = Assert.Single(FencedBlock.Of("page.md", "# Title\r\n\r\n```water steps each\r\nwater lawn for 5 min\r\n\r\npause 2 min\r\n```\r\nend"));

        Assert.Equal("page.md:3", block.ToString());
        Assert.Equal(["water", "steps", "each"], block.Info);
        Assert.Equal("water lawn for 5 min\n\npause 2 min\n", block.Text);
    }

    [Fact]
    public void Blocks_follow_each_other_and_may_be_empty_or_without_a_language() =>
        Assert.Equal(
            [("water", ""), ("", "text\n"), ("console", "$ x\n")],
            FencedBlock.Of("page.md", "```water\n```\n```\ntext\n```\n\n```console\n$ x\n```").Select(block => (block.Language, block.Text)));

    [Fact]
    public void An_open_fence_is_refused() =>
        Assert.Throws<FormatException>(() => FencedBlock.Of("page.md", "text\n```water\nsite").ToList());
}
