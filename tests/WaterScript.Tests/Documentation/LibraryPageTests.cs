using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// The programs of the page about the library compile without a warning and print what is shown under them.
/// <c>WATERSCRIPT_WRITE_PAGES=1 dotnet test --filter LibraryPageTests</c> writes what they print.
/// </summary>
public sealed class LibraryPageTests : Workshop
{
    private const string Page = "docs/library.md";

    private static readonly FencedBlock[] Blocks =
        [.. FencedBlock.Of(Page, Repository.Read(Page).ReplaceLineEndings("\n")).Where(block => block.Language is "csharp" or "text")];

    public static TheoryData<int> Programs => [.. Enumerable.Range(0, Blocks.Length / 2)];

    [Fact]
    public void There_are_three_programs_each_with_what_it_prints() =>
        Assert.Equal(["csharp", "text", "csharp", "text", "csharp", "text"], Blocks.Select(block => block.Language));

    [Theory]
    [MemberData(nameof(Programs))]
    public void A_program_prints_what_the_page_shows(int number)
    {
        var (program, shown) = (Blocks[2 * number].Text, Blocks[(2 * number) + 1].Text);
        Write("balcony.water", Repository.Read("examples/balcony.water").ReplaceLineEndings("\n"));

        var run = PageProgram.Run(program, Folder);

        Assert.Equal(("", 0), (run.Error, run.ExitCode));
        var printed = run.Output.ReplaceLineEndings("\n");
        if (Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1") Renew(program, shown, printed);
        else Assert.Equal(shown, printed);
    }

    private static void Renew(string program, string shown, string printed)
    {
        var page = Path.Combine(Repository.Root, Page);
        const string between = "```\n\n```text\n";
        File.WriteAllText(page, File.ReadAllText(page).Replace(program + between + shown, program + between + printed, StringComparison.Ordinal));
    }
}
