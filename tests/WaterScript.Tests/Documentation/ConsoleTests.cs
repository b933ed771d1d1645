using WaterScript.Tests.Cli;
using WaterScript.Tests.Player;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// The commands that the pages show print what is shown under them, in a folder with the examples and the files that the page shows.
/// <c>WATERSCRIPT_WRITE_PAGES=1 dotnet test --filter ConsoleTests</c> writes what they print into the pages.
/// </summary>
public sealed class ConsoleTests : Workshop
{
    private const string Program = "waterscript";

    /// <summary>The player in C, where a page has it built.</summary>
    private const string CProgram = "./player";

    private static readonly string[] ShellCommands = ["sh", "sed", "head", "tail", "printf"];

    public static TheoryData<string> Pages => [.. FencedBlock.InPages("console").Select(block => block.Page).Distinct()];

    [Theory]
    [MemberData(nameof(Pages))]
    public void The_commands_of_a_page_print_what_it_shows(string page)
    {
        foreach (var path in Repository.ExampleFiles.Append("examples/player/play.sh"))
            Write(path, Repository.Read(path));
        foreach (var (name, text) in Snippet.Included(FencedBlock.InPages("water").Where(block => block.Page == page)))
            Write(name, text);

        var exchanges = FencedBlock.InPages("console").Where(block => block.Page == page).SelectMany(ConsoleExchange.Of);
        foreach (var exchange in exchanges)
        {
            if (Answer(exchange.Command) is not { } result) continue;
            var printed = result.Output + result.Error;
            if (IsWriting && !exchange.IsShown(printed)) Renew(exchange, printed);
            else Assert.True(exchange.IsShown(printed), $"{exchange}\nprints:\n{printed}");
        }
    }

    private static bool IsWriting => Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1";

    private static void Renew(ConsoleExchange exchange, string printed)
    {
        var path = Path.Combine(Repository.Root, exchange.Block.Page);
        var (old, renewed) = (exchange.Shown(exchange.Output), exchange.Shown(exchange.Renewed(printed)));
        File.WriteAllText(path, File.ReadAllText(path).Replace(old, renewed, StringComparison.Ordinal));
    }

    /// <summary>What a command prints; null for one of a shell, or of the player in C, where there is none.</summary>
    private WaterscriptProcess.Result? Answer(string command)
    {
        string[] words = command.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words[0] == Program) return Run(words[1..]);
        if (words[0] == CProgram) return CPlayer.Lacks is null ? WaterscriptProcess.Shell(Folder, CPlayer.Program + command[CProgram.Length..]) : null;
        Assert.Contains(words[0], ShellCommands);
        return PosixShell.Lacks is null ? WaterscriptProcess.Shell(Folder, command) : null;
    }
}
