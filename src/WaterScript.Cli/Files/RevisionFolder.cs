using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>The files of a git repository as they stand in a revision, which git itself hands out. Nothing is checked out.</summary>
internal sealed class RevisionFolder : ISourceFiles
{
    /// <summary>More than any answer that is a line: a path, or the name of an object.</summary>
    private const int MostLineBytes = 1 << 16;

    private readonly GitProgram _git;
    private readonly string _revision;
    private readonly string _tree;
    private readonly Dictionary<string, string> _unreadable = new(StringComparer.Ordinal);
    private readonly List<Finding> _findings = [];

    /// <param name="git">The program.</param>
    /// <param name="revision">As it is written; empty for what is staged.</param>
    /// <param name="tree">What git finds a path in: the name of an object, so that all files are of one moment, or <c>:0</c> for what is staged.</param>
    private RevisionFolder(GitProgram git, string revision, string tree) => (_git, _revision, _tree) = (git, revision, tree);

    /// <inheritdoc/>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>Whether a path names a file in a revision: <c>HEAD~1:garden.water</c>. What is a file under that name stays one.</summary>
    public static bool IsMeant(string path, Surroundings surroundings) =>
        path.Contains(':', StringComparison.Ordinal) && !IsOnDrive(path) && !File.Exists(surroundings.At(path));

    private static bool IsOnDrive(string path) => OperatingSystem.IsWindows() && path.IndexOf(':', StringComparison.Ordinal) == 1;

    /// <summary>The root file that <c>REV:path</c> names, its path from the root of the repository, and the files beside it.</summary>
    /// <exception cref="CommandException">There is no git, no repository here, no such revision, or no such file in it.</exception>
    public static (SourceText Root, string Path, RevisionFolder Folder) Open(string written, Surroundings surroundings)
    {
        var colon = written.IndexOf(':', StringComparison.Ordinal);
        var (revision, path) = (written[..colon], written[(colon + 1)..]);
        if (revision.StartsWith('-') || revision.Any(char.IsControl)) throw new CommandException($"\"{revision}\" is not a revision");
        var git = GitProgram.Find(surroundings);
        var prefix = git.Run(MostLineBytes, "rev-parse", "--show-prefix");
        if (!prefix.IsSuccess)
            throw new CommandException(
                $"{written} names a file in a revision, and this folder lies in no git " +
                $"repository{(IsUsual(prefix.Error) ? "" : $" that git would read: {prefix.Error}")}");
        var folder = new RevisionFolder(git, revision, revision.Length == 0 ? ":0" : TreeOf(git, revision));
        var fromRoot = FromRoot(path.Replace('\\', '/'), prefix.Line);
        if (folder.Read(fromRoot) is { } root) return (root, fromRoot, folder);
        if (folder.WhyUnreadable(fromRoot) is { } why) throw new CommandException($"cannot read {written}: {why}");
        throw new CommandException($"there is no file {fromRoot} {(revision.Length > 0 ? $"in {revision}" : "among what is staged")}");
    }

    /// <inheritdoc/>
    public SourceText? Read(string path)
    {
        var name = _git.Run(MostLineBytes, "rev-parse", "--verify", "--quiet", $"{_tree}:{path}");
        if (!IsObject(name.Line))
        {
            if (name.Error.Length > 0) _unreadable[path] = $"git says \"{name.Error}\"";
            return null;
        }

        var blob = _git.Run(SourceFolder.MostBytes, "cat-file", "blob", name.Line);
        if (!blob.IsSuccess)
        {
            _unreadable[path] = $"git says \"{blob.Error}\"";
            return null;
        }

        var (text, finding) = TextDecoder.Decode($"{_revision}:{path}", blob.Output);
        if (finding is not null) _findings.Add(finding);
        return text;
    }

    /// <inheritdoc/>
    public string? WhyUnreadable(string path) => _unreadable.GetValueOrDefault(path);

    /// <summary>What a revision is in this moment, so that what follows cannot be taken for an option or change in between.</summary>
    private static string TreeOf(GitProgram git, string revision)
    {
        var tree = git.Run(MostLineBytes, "rev-parse", "--verify", "--quiet", revision + "^{tree}");
        return IsObject(tree.Line)
            ? tree.Line
            : throw new CommandException($"git knows no revision {revision}{(tree.Error.Length > 0 ? $"; it says \"{tree.Error}\"" : "")}");
    }

    /// <summary>Whether it is the name of an object: SHA-1 or SHA-256 in hexadecimal.</summary>
    private static bool IsObject(string line) => line.Length is 40 or 64 && line.All(char.IsAsciiHexDigitLower);

    /// <summary>What git says where there is simply no repository.</summary>
    private static bool IsUsual(string error) => error.Length == 0 || error.StartsWith("fatal: not a git repository", StringComparison.Ordinal);

    /// <summary>As git reads it: from the root of the repository, or from the current folder after a dot.</summary>
    private static string FromRoot(string path, string prefix)
    {
        if (!path.StartsWith("./", StringComparison.Ordinal) && !path.StartsWith("../", StringComparison.Ordinal)) return path;
        var parts = new List<string>();
        foreach (var part in $"{prefix}{path}".Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            if (part == ".." && parts.Count > 0) parts.RemoveAt(parts.Count - 1);
            else if (part is not "." and not "..") parts.Add(part);
        }

        return string.Join('/', parts);
    }
}
