using System.Diagnostics;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The commands that the pages show print what is shown under them.</summary>
public sealed class ConsoleTests : IDisposable
{
    private const string Program = "waterscript";
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    /// <summary>Where the commands run: a folder with the examples and the files that the page shows.</summary>
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("waterscript-pages-");

    public static TheoryData<string> Pages => [.. FencedBlock.InPages("console").Select(block => block.Page).Distinct()];

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task The_commands_of_a_page_print_what_it_shows(string page)
    {
        foreach (var path in Repository.ExampleFiles)
            Write(path, Repository.Read(path));
        foreach (var (name, text) in Snippet.Included(FencedBlock.InPages("water").Where(block => block.Page == page)))
            Write(name, text);

        var exchanges = FencedBlock.InPages("console").Where(block => block.Page == page).SelectMany(ConsoleExchange.Of);
        foreach (var exchange in exchanges)
        {
            var printed = await Print(exchange.Command.Split(' ', StringSplitOptions.RemoveEmptyEntries));
            Assert.True(exchange.IsShown(printed), $"{exchange}\nprints:\n{printed}");
        }
    }

    private void Write(string path, string text)
    {
        var target = Path.Combine(_folder.FullName, path);
        Directory.CreateDirectory(Path.GetDirectoryName(target)!);
        File.WriteAllText(target, text);
    }

    private async Task<string> Print(string[] words)
    {
        Assert.Equal(Program, words[0]);
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, Program + ".dll"), .. words[1..]])
        {
            WorkingDirectory = _folder.FullName,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var process = Process.Start(start)!;
        using var deadline = new CancellationTokenSource(Patience);
        var texts = await Task.WhenAll(process.StandardOutput.ReadToEndAsync(deadline.Token), process.StandardError.ReadToEndAsync(deadline.Token));
        return string.Concat(texts);
    }
}
