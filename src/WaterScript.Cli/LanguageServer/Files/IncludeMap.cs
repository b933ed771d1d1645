using System.Collections.Immutable;
using WaterScript.Syntax;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>Which file includes which, of all that are open or in the folders that are worked in.</summary>
internal sealed class IncludeMap
{
    private readonly Dictionary<string, List<string>> _includedBy = new(StringComparer.Ordinal);
    private readonly List<string> _roots = [];

    private IncludeMap() { }

    /// <summary>The files with a site, in order of their paths.</summary>
    public ImmutableArray<string> Roots => [.. _roots.Order(StringComparer.Ordinal)];

    /// <summary>Looks at all files.</summary>
    public static IncludeMap Of(Snapshot workspace)
    {
        var map = new IncludeMap();
        var pending = new Queue<string>(workspace.Documents.Keys.Concat(workspace.KnownFiles));
        var seen = new HashSet<string>(StringComparer.Ordinal);
        while (pending.TryDequeue(out var path))
        {
            if (!seen.Add(path) || workspace.TreeAt(path) is not { } tree) continue;
            if (tree.Statements.Any(statement => statement is BlockNode { Kind.Text: "site" })) map._roots.Add(path);
            foreach (var included in Included(path, tree))
            {
                if (!map._includedBy.TryGetValue(included, out var by)) map._includedBy[included] = by = [];
                by.Add(path);
                pending.Enqueue(included);
            }
        }

        return map;
    }

    /// <summary>The root files of the sites that a file belongs to; itself where there is none.</summary>
    public ImmutableArray<string> RootsOf(string path) => Above(path) is { IsEmpty: false } roots ? roots : [path];

    /// <summary>Whether a file has a site, or belongs to one.</summary>
    public bool IsPartOfSite(string path) => !Above(path).IsEmpty;

    private ImmutableArray<string> Above(string path)
    {
        var above = new HashSet<string>(StringComparer.Ordinal);
        var pending = new Stack<string>([path]);
        while (pending.TryPop(out var next))
        {
            if (!above.Add(next)) continue;
            foreach (var by in _includedBy.GetValueOrDefault(next) ?? []) pending.Push(by);
        }

        return [.. _roots.Where(above.Contains).Order(StringComparer.Ordinal)];
    }

    private static IEnumerable<string> Included(string path, FileNode tree) => tree.Statements.OfType<IncludeNode>()
        .Select(include => include.Path.Value)
        .Where(value => value.Length > 0 && !value.Contains('\0', StringComparison.Ordinal))
        .Select(value => Path.GetFullPath(value, Path.GetDirectoryName(path)!));
}
