using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The commands that the pages show print what is shown under them, in a folder with the examples and the files that the page shows.</summary>
public sealed class ConsoleTests : Workshop
{
    private const string Program = "waterscript";

    public static TheoryData<string> Pages => [.. FencedBlock.InPages("console").Select(block => block.Page).Distinct()];

    [Theory]
    [MemberData(nameof(Pages))]
    public void The_commands_of_a_page_print_what_it_shows(string page)
    {
        foreach (var path in Repository.ExampleFiles)
            Write(path, Repository.Read(path));
        foreach (var (name, text) in Snippet.Included(FencedBlock.InPages("water").Where(block => block.Page == page)))
            Write(name, text);

        var exchanges = FencedBlock.InPages("console").Where(block => block.Page == page).SelectMany(ConsoleExchange.Of);
        foreach (var exchange in exchanges)
        {
            string[] words = exchange.Command.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            Assert.Equal(Program, words[0]);
            var result = Run(words[1..]);
            Assert.True(exchange.IsShown(result.Output + result.Error), $"{exchange}\nprints:\n{result.Output}{result.Error}");
        }
    }
}
