using System.Collections.Immutable;
using System.Text;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>A list of paths, a line each, or with a zero byte behind each where names may have line breaks in them.</summary>
internal static class PathList
{
    /// <summary>More than anybody has, and less than fills a machine: an endless stream ends here.</summary>
    private const int MostLetters = 1 << 28;

    /// <summary>Reads one; the same path twice counts once.</summary>
    /// <param name="path">A file, or <see cref="SiteSource.Standard"/>.</param>
    /// <param name="terminal">Where standard input is.</param>
    /// <exception cref="CommandException">It cannot be read, or lists nothing.</exception>
    public static ImmutableArray<string> Read(string path, Terminal terminal)
    {
        using var text = new StreamReader(path == SiteSource.Standard ? terminal.OpenInput() : RegularFile.OpenNamed(path, terminal.Surroundings));
        var all = ReadAtMost(text) ?? throw new CommandException($"{Named(path)} is too large for a list of paths");
        ImmutableArray<string> paths = [.. Split(all).Where(each => each.Length > 0).Distinct(StringComparer.Ordinal)];
        if (paths.IsEmpty) throw new CommandException($"{Named(path)} lists no path");
        if (paths.Contains(SiteSource.Standard))
            throw new CommandException($"{Named(path)} lists -, which is standard input; a list has files and folders only");
        return paths;
    }

    private static string? ReadAtMost(StreamReader text)
    {
        var all = new StringBuilder();
        var part = new char[1 << 16];
        while (all.Length <= MostLetters && text.ReadBlock(part) is > 0 and var read) all.Append(part.AsSpan(0, read));
        return all.Length <= MostLetters ? all.ToString() : null;
    }

    private static IEnumerable<string> Split(string all) => all.Contains('\0', StringComparison.Ordinal)
        ? all.Split('\0')
        : all.Split('\n').Select(line => line.EndsWith('\r') ? line[..^1] : line);

    private static string Named(string path) => path == SiteSource.Standard ? "standard input" : DisplayLine.CleanLine(path);
}
