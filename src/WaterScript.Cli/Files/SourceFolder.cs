using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>The files under a root folder. What lies outside it, also behind a link, is not read.</summary>
internal sealed class SourceFolder : ISourceFiles
{
    /// <summary>More bytes than the longest file that the compiler takes can have: three for each of its code units.</summary>
    public const int MostBytes = 3 * (Limits.FileLength + 1);

    private readonly string _root;
    private readonly Surroundings _surroundings;
    private readonly Dictionary<string, string> _unreadable = new(StringComparer.Ordinal);
    private readonly List<Finding> _findings = [];

    /// <summary>The files under a folder.</summary>
    public SourceFolder(string root, Surroundings surroundings) => (_root, _surroundings) = (RealPath.Of(root, surroundings), surroundings);

    /// <inheritdoc/>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>The path of a file from the root folder, as <see cref="Read"/> takes it.</summary>
    /// <exception cref="CommandException">It lies outside.</exception>
    public string PathOf(string file)
    {
        var real = RealPath.Of(file, _surroundings);
        return RealPath.IsInside(real, _root)
            ? Path.GetRelativePath(_root, real).Replace(Path.DirectorySeparatorChar, '/')
            : throw new CommandException($"{file} lies outside the root folder {_root}");
    }

    /// <inheritdoc/>
    public SourceText? Read(string path)
    {
        var file = Path.Combine(_root, path.Replace('/', Path.DirectorySeparatorChar));
        try
        {
            return FileStatus.Of(file) is null || LeadsOutside(path) ? null : Decode(file);
        }
        catch (FileNotFoundException)
        {
            return null; // It was there a moment ago.
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            _unreadable[path] = IoWords.Of(problem);
            return null;
        }
    }

    /// <inheritdoc/>
    public string? WhyUnreadable(string path) => _unreadable.GetValueOrDefault(path);

    /// <summary>Reads the text of a file, and keeps what was found about it.</summary>
    /// <exception cref="CommandException">It cannot be read.</exception>
    public SourceText ReadFile(string file)
    {
        try
        {
            return Decode(file);
        }
        catch (FileNotFoundException)
        {
            throw new CommandException($"no such file: {file}");
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new CommandException($"cannot read {file}: {IoWords.Of(problem)}");
        }
    }

    /// <inheritdoc/>
    public bool LeadsOutside(string path) => !_unreadable.ContainsKey(path) && !RealPath.IsInside(RealPath.Of(Path.Combine(_root, path), _surroundings), _root);

    /// <summary>Reads a text from a stream, and keeps what was found about it.</summary>
    public SourceText Decode(string shownPath, Stream stream)
    {
        var (text, finding) = TextDecoder.Decode(shownPath, ReadAtMost(stream));
        if (finding is not null) _findings.Add(finding);
        return text;
    }

    private SourceText Decode(string file)
    {
        using var stream = RegularFile.Open(_surroundings.At(file));
        return Decode(_surroundings.Shown(file), stream);
    }

    private static byte[] ReadAtMost(Stream stream)
    {
        using var bytes = new MemoryStream();
        var buffer = new byte[1 << 16];
        int read;
        while (bytes.Length < MostBytes && (read = stream.Read(buffer)) > 0) bytes.Write(buffer, 0, read);
        return bytes.ToArray();
    }
}
