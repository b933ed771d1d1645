using System.Text;
using WaterScript.Tests.Documentation;

namespace WaterScript.Tests.Cli;

/// <summary>A folder of its own for a test, gone with it.</summary>
public abstract class Workshop : IDisposable
{
    /// <summary>Two zones, every day at 06:00.</summary>
    protected const string Good = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1; flow 10 L/min; area 60 m2 }
        zone beds { output 2 }
        schedule morning { every day; start at 06:00; steps { water lawn, beds for 10 min } }

        """;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("waterscript-test-");

    /// <summary>The folder.</summary>
    protected string Folder => _folder.FullName;

    /// <inheritdoc/>
    public void Dispose()
    {
        _folder.Delete(recursive: true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Runs the program in the folder. Whatever it answers for programs has to be as the schema says.</summary>
    private protected WaterscriptProcess.Result Run(params string[] arguments)
    {
        var result = WaterscriptProgram.Run(Folder, arguments);
        if (ReportSchema.IsOf(result.Output)) ReportSchema.Hold(result.Output);
        return result;
    }

    /// <summary>Runs with the words of a line.</summary>
    private protected WaterscriptProcess.Result RunLine(string line) => Run(line.Split(' ', StringSplitOptions.RemoveEmptyEntries));

    private protected string Write(string path, string text) => Write(path, Encoding.UTF8.GetBytes(text));

    private protected string Write(string path, byte[] bytes)
    {
        var file = PathOf(path);
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        File.WriteAllBytes(file, bytes);
        return file;
    }

    private protected string PathOf(string path) => Path.Combine(Folder, path);

    private protected string Read(string path) => File.ReadAllText(PathOf(path));

    /// <summary>Names of all that is in the folder, hidden files too.</summary>
    private protected string[] Names() =>
        [.. Directory.EnumerateFileSystemEntries(Folder).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal)];
}
