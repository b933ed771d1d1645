using System.ComponentModel;
using System.Diagnostics;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>The files of a git repository as they stand in a revision, which git itself hands out. Nothing is checked out.</summary>
internal sealed class RevisionFolder : ISourceFiles
{
    private readonly string _revision;
    private readonly List<Finding> _findings = [];

    private RevisionFolder(string revision) => _revision = revision;

    /// <inheritdoc/>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>Whether a path names a file in a revision: <c>HEAD~1:garden.water</c>. What is a file under that name stays one.</summary>
    public static bool IsMeant(string path) => path.Contains(':', StringComparison.Ordinal) && !IsOnDrive(path) && !File.Exists(path);

    private static bool IsOnDrive(string path) => OperatingSystem.IsWindows() && path.IndexOf(':', StringComparison.Ordinal) == 1;

    /// <summary>The root file that <c>REV:path</c> names, its path from the root of the repository, and the files beside it.</summary>
    /// <exception cref="CommandException">There is no git, no repository here, no such revision, or no such file in it.</exception>
    public static (SourceText Root, string Path, RevisionFolder Folder) Open(string written)
    {
        var colon = written.IndexOf(':', StringComparison.Ordinal);
        var (revision, path) = (written[..colon], written[(colon + 1)..]);
        if (revision.StartsWith('-')) throw new CommandException($"\"{revision}\" is no revision");
        if (Git("rev-parse", "--show-prefix") is not { } prefix) throw new CommandException($"{written} names a file in a revision, and this folder lies in no git repository");
        if (revision.Length > 0 && Git("rev-parse", "--verify", "--quiet", revision + "^{tree}") is null) throw new CommandException($"git knows no revision {revision}");
        var folder = new RevisionFolder(revision);
        var fromRoot = FromRoot(path.Replace('\\', '/'), Text(prefix));
        return folder.Read(fromRoot) is { } root ? (root, fromRoot, folder) : throw new CommandException($"there is no file {fromRoot} {(revision.Length > 0 ? $"in {revision}" : "among what is staged")}");
    }

    /// <inheritdoc/>
    public SourceText? Read(string path)
    {
        if (Git("cat-file", "blob", $"{_revision}:{path}") is not { } bytes) return null;
        var (text, finding) = TextDecoder.Decode($"{_revision}:{path}", bytes);
        if (finding is not null) _findings.Add(finding);
        return text;
    }

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

    private static string Text(byte[] bytes) => System.Text.Encoding.UTF8.GetString(bytes).TrimEnd('\n', '\r');

    /// <summary>What git prints; null where it says that there is no such thing.</summary>
    private static byte[]? Git(params string[] arguments)
    {
        var start = new ProcessStartInfo("git", arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        try
        {
            using var git = Process.Start(start)!;
            var error = git.StandardError.ReadToEndAsync();
            using var output = new MemoryStream();
            git.StandardOutput.BaseStream.CopyTo(output);
            git.WaitForExit();
            error.GetAwaiter().GetResult();
            return git.ExitCode == 0 ? output.ToArray() : null;
        }
        catch (Win32Exception)
        {
            throw new CommandException("a file in a revision needs git, and there is none on the path");
        }
    }
}
