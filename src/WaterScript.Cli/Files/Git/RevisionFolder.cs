using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.Files.Git;

/// <summary>The files of a git repository as they stand in a revision, which git itself hands out. Nothing is checked out.</summary>
/// <param name="revision">As it is written; empty for what is staged.</param>
/// <param name="tree">What is in it.</param>
internal sealed class RevisionFolder(string revision, GitTree tree) : ISourceFiles
{
    private readonly Dictionary<string, string> _unreadable = new(StringComparer.Ordinal);
    private readonly List<Finding> _findings = [];

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
        var (revision, path, folder) = At(written, surroundings);
        if (folder.Read(path) is { } root) return (root, path, folder);
        if (folder.WhyUnreadable(path) is { } why) throw new CommandException($"cannot read {written}: {why}");
        throw new CommandException($"no such file {(revision.Length > 0 ? $"in {revision}" : "among what is staged")}: {path}");
    }

    /// <summary>The path from the root of the repository that <c>REV:path</c> names, where that revision has no such file; else null.</summary>
    public static string? MissingPath(string written, Surroundings surroundings)
    {
        var (_, path, folder) = At(written, surroundings);
        return folder.Read(path) is null && folder.WhyUnreadable(path) is null ? path : null;
    }

    /// <inheritdoc/>
    public SourceText? Read(string path)
    {
        var (bytes, why) = tree.Read(path, SourceFolder.MostBytes);
        if (why is not null) _unreadable[path] = why;
        if (bytes is null) return null;
        var (text, finding) = TextDecoder.Decode($"{revision}:{path}", bytes);
        if (finding is not null) _findings.Add(finding);
        return text;
    }

    /// <inheritdoc/>
    public string? WhyUnreadable(string path) => _unreadable.GetValueOrDefault(path);

    private static (string Revision, string Path, RevisionFolder Folder) At(string written, Surroundings surroundings)
    {
        var colon = written.IndexOf(':', StringComparison.Ordinal);
        var (revision, path) = (written[..colon], written[(colon + 1)..]);
        if (revision.StartsWith('-') || revision.Any(char.IsControl)) throw new CommandException($"\"{revision}\" is not a revision");
        var repository = GitRepository.At(written, surroundings);
        return (revision, FromRoot(path.Replace('\\', '/'), repository.Prefix), new RevisionFolder(revision, repository.TreeOf(revision)));
    }

    /// <summary>As git reads it: from the root of the repository, or from the current folder after a dot.</summary>
    internal static string FromRoot(string path, string prefix)
    {
        if (path is not ("." or "..") && !path.StartsWith("./", StringComparison.Ordinal) && !path.StartsWith("../", StringComparison.Ordinal)) return path;
        var parts = new List<string>();
        foreach (var part in $"{prefix}{path}".Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            if (part == ".." && parts.Count > 0) parts.RemoveAt(parts.Count - 1);
            else if (part is not "." and not "..") parts.Add(part);
        }

        return string.Join('/', parts);
    }
}
