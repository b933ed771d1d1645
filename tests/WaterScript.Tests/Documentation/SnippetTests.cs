using Xunit;

namespace WaterScript.Tests.Documentation;

public class SnippetTests
{
    private const string Prelude = "```water prelude\nsite s\n```\n";

    private static List<Snippet> Read(string markdown) => [.. Snippet.Of([.. FencedBlock.Of("page.md", markdown)])];

    [Fact]
    public void A_whole_file_is_left_as_it_is()
    {
        var snippet = Assert.Single(Read("```water\nsite x\n```"));

        Assert.Equal("site x\n", snippet.Text);
        Assert.Equal(Verdict.Compiles, snippet.Verdict);
    }

    [Fact]
    public void A_fragment_at_the_top_stands_after_the_prelude() =>
        Assert.Equal("site s\n\nlet a = 5 min\n", Read(Prelude + "```water top\nlet a = 5 min\n```")[1].Text);

    [Fact]
    public void A_fragment_of_a_schedule_gets_what_it_lacks_and_no_more() =>
        Assert.Equal(
            "site s\n\nschedule example {\non mon\n\nstart at 06:00\nsteps { water lawn for 10 min }\n}\n",
            Read(Prelude + "```water schedule\non mon\n```")[1].Text);

    [Fact]
    public void Each_line_is_a_snippet_with_the_verdict_of_the_block()
    {
        var snippets = Read(Prelude + "```water steps each fails syntax\npause 5\n\npause min\n```").Skip(1).ToList();

        Assert.Equal(["pause 5", "pause min"], snippets.Select(snippet => snippet.Fragment));
        Assert.All(snippets, snippet => Assert.Equal((Verdict.Fails, "syntax"), (snippet.Verdict, snippet.Slug)));
    }

    [Fact]
    public void A_file_to_be_included_is_no_snippet()
    {
        List<FencedBlock> blocks = [.. FencedBlock.Of("page.md", "```water file zones.water\nzone a\n```")];

        Assert.Empty(Snippet.Of(blocks));
        Assert.Equal("zone a\n", Snippet.Included(blocks)["zones.water"]);
    }

    [Theory]
    [InlineData("water stepps")]
    [InlineData("water steps fails syntax again")]
    public void An_info_string_that_cannot_be_read_is_refused(string info) =>
        Assert.Throws<FormatException>(() => Read($"```{info}\nx\n```"));
}
