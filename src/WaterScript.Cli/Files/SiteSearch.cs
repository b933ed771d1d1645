using System.Collections.Immutable;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>The sites in a folder and below.</summary>
/// <param name="Sites">Files with a site, in order of their paths.</param>
/// <param name="Strays">Files without one that no site there includes.</param>
/// <param name="Unreadable">What could not be read, each as a sentence without a full stop.</param>
internal sealed record SiteSearch(ImmutableArray<string> Sites, ImmutableArray<string> Strays, ImmutableArray<string> Unreadable)
{
    /// <summary>Looks through a folder.</summary>
    public static SiteSearch In(string folder, Surroundings surroundings)
    {
        var walk = FolderWalk.Of(folder, surroundings);
        var unreadable = walk.Unreadable.ToBuilder();
        var seen = SideBySide.Of(walk.Files, path => SeenIn(path, folder, surroundings), (_, file) => Seen(file, unreadable)).OfType<SeenFile>().ToList();
        var included = seen.SelectMany(file => file.Includes).ToHashSet(StringComparer.Ordinal);
        return new SiteSearch(
            [.. seen.Where(file => file.HasSite).Select(file => file.Path)],
            [.. seen.Where(file => !file.HasSite && !included.Contains(surroundings.Whole(file.Path))).Select(file => file.Path)],
            unreadable.ToImmutable());
    }

    private static SeenFile? Seen(Func<SeenFile> file, ImmutableArray<string>.Builder unreadable)
    {
        try
        {
            return file();
        }
        catch (CommandException problem)
        {
            unreadable.Add(problem.Message);
            return null;
        }
    }

    private static SeenFile SeenIn(string path, string folder, Surroundings surroundings)
    {
        var tree = TreeOf(new SourceFolder(folder, surroundings).ReadFile(path));
        return new SeenFile(path, HasSite(tree), [.. Included(surroundings.Whole(path), tree)]);
    }

    /// <summary>The tree of a file. One that the program itself fails on is taken for a site, so that it is reported when that is checked.</summary>
    internal static FileNode? TreeOf(SourceText source)
    {
        try
        {
            return Parser.Parse(source, []);
        }
#pragma warning disable CA1031 // Whatever it was, the other files are still to be looked at.
        catch (Exception)
#pragma warning restore CA1031
        {
            return null;
        }
    }

    /// <summary>Whether a file has a site; one that the program itself fails on is taken for one.</summary>
    internal static bool HasSite(FileNode? tree) => tree is null || tree.Statements.Any(statement => statement is BlockNode { Kind.Text: "site" });

    private static IEnumerable<string> Included(string path, FileNode? tree) =>
        (tree?.Statements ?? []).OfType<IncludeNode>()
            .Select(include => Path.GetFullPath(include.Path.Value.Replace("\0", "", StringComparison.Ordinal), Path.GetDirectoryName(path)!));

    /// <summary>What counts of a file here; of ten thousand nobody keeps the trees.</summary>
    private sealed record SeenFile(string Path, bool HasSite, ImmutableArray<string> Includes);
}
