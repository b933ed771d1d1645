using WaterScript.Answers.Diff.Folders;
using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary>Finds both versions of a folder, or of the sites that a file belongs to, and compares them.</summary>
/// <param name="compare">How sites are compared.</param>
/// <param name="root">What <c>--root</c> says, or null.</param>
/// <param name="terminal">Where the folder lies.</param>
internal sealed class FolderVersions(SiteComparison compare, string? root, Terminal terminal)
{
    /// <summary>Compares them.</summary>
    /// <param name="old"><c>REV..REV</c>, a revision, or a folder.</param>
    /// <param name="path">A folder; behind two revisions also a file, which may be a part of several sites.</param>
    public FolderChanges Compare(string old, string path)
    {
        var comparison = new FolderComparison(compare, terminal);
        if (Directory.Exists(terminal.Surroundings.At(old)) && !VersionRange.IsMeant(old, terminal))
            return comparison.Of(FolderVersion.OfFiles(old, root, terminal), FolderVersion.OfFiles(path, root, terminal));
        var repository = GitRepository.At(old, terminal.Surroundings);
        var range = VersionRange.IsMeant(old, terminal) ? VersionRange.Read(old, repository) : new VersionRange(RevisionOf(old), New: null);
        var from = FromTop(path, repository);
        var (before, after) = (repository.TreeOf(range.Old), range.New is { } now ? repository.TreeOf(now) : null);
        if (Directory.Exists(terminal.Surroundings.At(path)) || IsFolder(before, from) || (after is not null && IsFolder(after, from)))
        {
            var folder = from.Length == 0 ? "" : from + "/";
            var files = after is null ? FolderVersion.OfFiles(path, root, terminal) : Of(range.New!, after, folder);
            return comparison.Of(Of(range.Old, before, folder), files);
        }

        if (!before.Has(from) && after?.Has(from) != true) throw new CommandException($"no such file in {range.Old} or {range.New}: {from}");
        var changes = comparison.Of(Of(range.Old, before, ""), Of(range.New!, after!, ""), Reads(from, range));
        return changes is { Sites.IsEmpty: true, Untouched: 0 } ? OfPart(from, (range.Old, before), (range.New!, after!)) : changes;
    }

    /// <summary>A file that no site reads in either version.</summary>
    private FolderChanges OfPart(string path, (string Revision, GitTree Tree) old, (string Revision, GitTree Tree) @new)
    {
        var was = new RevisionFolder(old.Revision, old.Tree).Read(path);
        var now = new RevisionFolder(@new.Revision, @new.Tree).Read(path);
        return new PartComparison(compare, root, terminal).Alone(was, now, path)
            ?? throw new CommandException($"{path} has an error in one of the two revisions");
    }

    private FolderVersion Of(string revision, GitTree tree, string folder) =>
        terminal.During($"Reading {revision}", () => FolderVersion.OfRevision(revision, tree, folder, terminal.TimeZones));

    /// <summary>A revision alone; a colon behind it would be one of a file.</summary>
    private static string RevisionOf(string text) => text.EndsWith(':') && text.Length > 1 ? text[..^1] : text;

    private static bool IsFolder(GitTree tree, string path) =>
        path.Length == 0 || tree.All.Keys.Any(file => file.StartsWith(path + "/", StringComparison.Ordinal));

    /// <summary>Whether a site reads a file, in either version.</summary>
    private static Func<SiteReading, bool> Reads(string path, VersionRange range)
    {
        string[] shown = [$"{range.Old}:{path}", $"{range.New}:{path}"];
        return reading => reading.Files.Any(file => shown.Contains(file.Source.Path));
    }

    private string FromTop(string path, GitRepository repository)
    {
        var relative = Path.GetRelativePath(RealPath.Of(repository.Top, terminal.Surroundings), RealPath.Of(path, terminal.Surroundings))
            .Replace(Path.DirectorySeparatorChar, '/');
        if (relative == ".") return "";
        return relative.StartsWith("../", StringComparison.Ordinal) || relative == ".." || Path.IsPathRooted(relative)
            ? throw new CommandException($"{path} lies outside the repository {repository.Top}")
            : relative;
    }
}
