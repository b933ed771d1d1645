using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Trees of texts that one answer reads several times. It belongs to one thread.</summary>
internal sealed class KnownTrees
{
    private readonly Dictionary<SourceText, (FileNode Tree, ImmutableArray<Finding> Findings)> _trees = [];

    /// <summary>Takes the tree of a text.</summary>
    /// <param name="tree">The tree.</param>
    /// <param name="findings">All that was found while it was made.</param>
    public void Add(FileNode tree, FindingList findings) => _trees[tree.Source] = (tree, [.. findings]);

    /// <summary>The tree of a text; null where it is not known.</summary>
    /// <param name="source">The text.</param>
    /// <param name="findings">Takes what was found while it was made.</param>
    public FileNode? Find(SourceText source, FindingList findings)
    {
        if (!_trees.TryGetValue(source, out var known)) return null;
        findings.AddRange(known.Findings);
        return known.Tree;
    }
}
