using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The README is short, and what stands above its first heading shows what the project is for.</summary>
public sealed partial class ReadmeTests
{
    private const string Page = "README.md";
    private const int MostWords = 600;
    private const int LinesOfTheFile = 6;

    private static readonly string Readme = Repository.Read(Page).ReplaceLineEndings("\n");

    private static readonly string FirstScreen = Readme.Split("\n## ")[0];

    [Fact]
    public void It_has_few_words_outside_of_its_code() =>
        Assert.InRange(Blocks().Replace(Readme, "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Length, 100, MostWords);

    [Fact]
    public void It_begins_with_what_it_is_about() => Assert.Contains("irrigation", FirstScreen, StringComparison.OrdinalIgnoreCase);

    [Fact]
    public void It_begins_with_a_short_file_and_the_finding_that_it_causes()
    {
        var blocks = FencedBlock.Of(Page, FirstScreen).ToArray();
        Assert.Equal(["water", "console"], blocks.Select(block => block.Language));
        Assert.Equal(LinesOfTheFile, blocks[0].Text.TrimEnd('\n').Split('\n').Length);
        var check = Assert.Single(ConsoleExchange.Of(blocks[1]));
        Assert.Equal($"waterscript check {blocks[0].Info[2]}", check.Command);
        Assert.Matches(@"^(error|warning|advice): .+ \[[a-z-]+\]$", check.Output[0]);
    }

    [Fact]
    public void It_begins_with_a_picture_that_is_there()
    {
        var picture = Assert.Single(Pictures().Matches(FirstScreen));
        Assert.True(File.Exists(Path.Combine(Repository.Root, picture.Groups["target"].Value)), picture.Value);
    }

    [GeneratedRegex("^```.*?^```$", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Blocks();

    [GeneratedRegex(@"!\[[^\]]+\]\((?<target>[^)\s]+)\)")]
    private static partial Regex Pictures();
}
