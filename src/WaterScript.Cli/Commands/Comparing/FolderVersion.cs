using System.Collections.Immutable;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary>The sites of a folder in one version.</summary>
/// <param name="Sites">Their root files, from the folder, each with what opens it.</param>
/// <param name="Unreadable">What could not be read, each as a sentence without a full stop.</param>
internal sealed record FolderVersion(ImmutableSortedDictionary<string, Func<SiteSource>> Sites, ImmutableArray<string> Unreadable)
{
    private const string Ending = ".water";

    /// <summary>The files as they are.</summary>
    /// <param name="folder">As it is written.</param>
    /// <param name="root">What <c>--root</c> says, or null.</param>
    /// <param name="terminal">Where the folder lies.</param>
    public static FolderVersion OfFiles(string folder, string? root, Terminal terminal)
    {
        var search = SiteSearch.In(folder, terminal.Surroundings);
        var whole = terminal.Surroundings.Whole(folder);
        return new FolderVersion(search.Sites.ToImmutableSortedDictionary(
            site => Path.GetRelativePath(whole, terminal.Surroundings.Whole(site)).Replace(Path.DirectorySeparatorChar, '/'),
            site => new Func<SiteSource>(() => SiteSource.Open(site, root, terminal)), StringComparer.Ordinal), search.Unreadable);
    }

    /// <summary>The files of a revision.</summary>
    /// <param name="revision">The revision, as it is written.</param>
    /// <param name="tree">What is in it.</param>
    /// <param name="folder">The folder, from the top of the repository, with a slash at its end; empty for the top itself.</param>
    /// <param name="timeZones">Where time zones come from.</param>
    public static FolderVersion OfRevision(string revision, GitTree tree, string folder, IDateTimeZoneProvider timeZones)
    {
        var (sites, unreadable) = (ImmutableSortedDictionary.CreateBuilder<string, Func<SiteSource>>(StringComparer.Ordinal), new List<string>());
        foreach (var path in tree.All.Where(file => file.Value.IsFile && IsSource(file.Key, folder)).Select(file => file.Key))
        {
            var files = new RevisionFolder(revision, tree);
            if (files.Read(path) is not { } source) unreadable.Add($"cannot read {revision}:{path}: {files.WhyUnreadable(path)}");
            else if (SiteSearch.HasSite(SiteSearch.TreeOf(source)))
                sites[path[folder.Length..]] = () => SiteSource.Among(new RevisionFolder(revision, tree), path, timeZones)!;
        }

        return new FolderVersion(sites.ToImmutable(), [.. unreadable]);
    }

    /// <summary>As in a folder, what is hidden is passed over.</summary>
    private static bool IsSource(string path, string folder) => path.StartsWith(folder, StringComparison.Ordinal)
        && path.EndsWith(Ending, StringComparison.Ordinal) && !path[folder.Length..].Split('/').Any(part => part.StartsWith('.'));
}
