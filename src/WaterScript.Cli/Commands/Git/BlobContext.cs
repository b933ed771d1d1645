using WaterScript.Calendars.TimeZones;
using WaterScript.Cli.Commands.Comparing;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;

namespace WaterScript.Cli.Commands.Git;

/// <summary>The files around one of which git gives no more than its object: those as they are, those staged, or those of a commit that has it.</summary>
/// <param name="Path">Where it lies among them, from the top.</param>
/// <param name="Files">Makes a reader of them.</param>
/// <param name="Sites">Finds the sites among them, by their paths from the top.</param>
internal sealed record BlobContext(string Path, Func<ISourceFiles> Files, Func<IEnumerable<string>> Sites)
{
    private const int MostBytes = 1 << 20;

    /// <summary>The files as they are.</summary>
    /// <param name="path">The path of the file, from the top.</param>
    /// <param name="top">The top of the repository.</param>
    /// <param name="terminal">Where it lies.</param>
    public static BlobContext OfFiles(string path, string top, Terminal terminal) =>
        new(path, () => new SourceFolder(top, terminal.Surroundings), () => FolderVersion.OfFiles(top, root: null, terminal).Sites.Keys);

    /// <summary>Those of the newest commit that has an object under a path, or of what is staged; null where there is none.</summary>
    /// <param name="blob">The name of the object.</param>
    /// <param name="path">The path of the file, from the top; null for whichever it is.</param>
    /// <param name="repository">The repository.</param>
    public static BlobContext? Of(string blob, string? path, GitRepository repository)
    {
        if (!GitRepository.IsObject(blob)) return null;
        foreach (var revision in new[] { "", "HEAD" })
        {
            if (TreeOf(revision, repository) is { } tree && PathIn(tree, blob, path) is { } there) return OfTree(revision, tree, there);
        }

        return Commit(blob, path, repository) is var (commit, found) && TreeOf(commit, repository) is { } old ? OfTree(commit[..10], old, found) : null;
    }

    private static BlobContext OfTree(string revision, GitTree tree, string path) =>
        new(path, () => new RevisionFolder(revision, tree), () => FolderVersion.OfRevision(revision, tree, "", PackagedTimeZones.Provider).Sites.Keys);

    private static string? PathIn(GitTree tree, string blob, string? path) => path is not null
        ? tree.All.TryGetValue(path, out var entry) && entry.Name == blob ? path : null
        : tree.All.Where(file => file.Value.Name == blob).Select(file => file.Key).FirstOrDefault();

    private static GitTree? TreeOf(string revision, GitRepository repository)
    {
        try
        {
            return repository.TreeOf(revision);
        }
        catch (CommandException)
        {
            return null; // A repository without a commit.
        }
    }

    /// <summary>The commit in which a file became that object, or the one before it went.</summary>
    private static (string Commit, string Path)? Commit(string blob, string? path, GitRepository repository)
    {
        string[] arguments = ["log", "--no-show-signature", "--all", "--no-renames", "--find-object=" + blob, "--raw", "--no-abbrev", "--format=%H"];
        var answer = repository.Run(MostBytes, path is null ? arguments : [.. arguments, "--", path]);
        var commit = "";
        foreach (var line in answer.Line.Split('\n'))
        {
            if (GitRepository.IsObject(line)) commit = line;
            var words = line.Split([' ', '\t'], 6);
            if (words.Length != 6 || !line.StartsWith(':')) continue;
            if (words[3] == blob) return (commit, words[5]);
            if (words[2] == blob) return (commit + "^", words[5]);
        }

        return null;
    }
}
