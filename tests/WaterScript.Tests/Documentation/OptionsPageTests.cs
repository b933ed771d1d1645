using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The page of the command line shows every option of every command, and every word that an option with a few takes.</summary>
public sealed class OptionsPageTests : Workshop
{
    private static readonly string Page = Repository.Read("docs/command-line.md").ReplaceLineEndings("\n");

    /// <summary>It has what all commands take.</summary>
    private static readonly string Introduction = Page.Split("\n## ")[0];

    public static TheoryData<string> Commands =>
    [
        "advise", "audit", "chart", "check", "compile", "completions", "deployed", "diff", "explain", "format", "git", "lsp", "next", "usage", "view", "why",
    ];

    [Fact]
    public void These_are_all_commands() =>
        Assert.Equal(Commands.Cast<object[]>().Select(row => (string)row[0]), Offered("").Where(word => char.IsAsciiLetter(word[0])));

    [Theory]
    [MemberData(nameof(Commands))]
    public void A_command_has_its_options_on_the_page(string command)
    {
        var section = Introduction + Page.Split($"\n## {command}\n")[1].Split("\n## ")[0];
        var options = Offered($"{command} --").Where(option => option != "--help").ToArray();
        Assert.All(options, option => Assert.Matches(Whole(option == "--output" ? "-o" : option), section));
        // Rules have pages of their own.
        var words = options.Where(option => option != "--rule")
            .SelectMany(option => Offered($"{command} {option} ")).Where(word => char.IsAsciiLetterLower(word[0]));
        Assert.All(words, word => Assert.Matches(Whole(word), section));
    }

    private static string Whole(string word) => $@"(?<![\w-]){word}(?![\w-])";

    private string[] Offered(string line) =>
        [.. Run($"[suggest:{line.Length}]", line).Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal)];
}
