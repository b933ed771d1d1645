using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>Where a command writes what it makes: standard output, or a file that is written whole or not at all. Never over a source.</summary>
internal sealed class OutputFile
{
    private const string SourceEnding = ".water";
    private readonly string _path;
    private readonly Terminal _terminal;

    private OutputFile(string path, Terminal terminal) => (_path, _terminal) = (path, terminal);

    /// <summary>Whether it is standard output.</summary>
    public bool IsStandard => _path == SiteSource.Standard;

    /// <summary>The place that <c>-o</c> names; null is standard output.</summary>
    /// <exception cref="CommandException">The name is that of a source, or empty.</exception>
    public static OutputFile Of(string? path, Terminal terminal)
    {
        if (path?.Length == 0) throw new CommandException("the output has no name; give it one after -o");
        if (path?.EndsWith(SourceEnding, StringComparison.OrdinalIgnoreCase) == true) throw Refusal(path);
        return new OutputFile(path is null || StandardDescriptor.Of(terminal.Surroundings.Whole(path)) == 1 ? SiteSource.Standard : path, terminal);
    }

    /// <summary>Reads what it takes the place of.</summary>
    /// <param name="mostBytes">More than this is not looked at.</param>
    /// <returns>Null where there is nothing that can be read.</returns>
    public byte[]? ReadReplaced(long mostBytes)
    {
        if (IsStandard || !File.Exists(_terminal.Surroundings.At(_path))) return null;
        try
        {
            using var file = RegularFile.Open(_terminal.Surroundings.At(_path));
            if (file.Length > mostBytes) return null;
            var bytes = new byte[file.Length];
            file.ReadExactly(bytes);
            return bytes;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Writes.</summary>
    /// <param name="sources">The files that were read, which stay.</param>
    /// <param name="write">Writes all of it.</param>
    /// <exception cref="CommandException">It is one of the sources, or cannot be written.</exception>
    public void Write(IEnumerable<SourceText> sources, Action<Stream> write)
    {
        if (IsStandard)
        {
            write(_terminal.Output);
            return;
        }

        if (sources.Any(IsSame)) throw Refusal(_path);
        _terminal.During("Writing", () =>
        {
            AtomicFile.Write(_path, _terminal.Surroundings, write);
            return true;
        });
    }

    private static CommandException Refusal(string path) => new($"{path} is a source, and the output would take its place; give the output another name");

    private bool IsSame(SourceText source) =>
        source.Path != SiteSource.Standard && RealPath.Of(source.Path, _terminal.Surroundings) == RealPath.Of(_path, _terminal.Surroundings);
}
