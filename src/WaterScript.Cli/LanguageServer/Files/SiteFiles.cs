using System.Collections.Immutable;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>The files of one site: what an editor has open counts, whatever is on the disk.</summary>
/// <param name="root">The root folder, every link followed.</param>
/// <param name="documents">What is open, by the path of its file.</param>
/// <param name="disk">Files that are not open.</param>
/// <param name="trees">The trees of all of them.</param>
internal sealed class SiteFiles(string root, ImmutableDictionary<string, OpenDocument> documents, DiskFiles disk, Trees trees) : ISourceFiles
{
    private readonly List<Finding> _findings = [];
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);

    /// <inheritdoc/>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>The paths of all files that were asked for, whether they are there or not.</summary>
    public IReadOnlySet<string> Asked => _asked;

    /// <inheritdoc/>
    public SourceText? Read(string path)
    {
        var whole = Path.GetFullPath(Path.Combine(root, path.Replace('/', Path.DirectorySeparatorChar)));
        _asked.Add(whole);
        if (documents.TryGetValue(whole, out var open)) return open.Source;
        var file = disk.Read(root, path);
        if (file.Finding is { } finding) _findings.Add(finding);
        return file.Text;
    }

    /// <inheritdoc/>
    public bool LeadsOutside(string path) => disk.Read(root, path).LeadsOutside;

    /// <inheritdoc/>
    public string? WhyUnreadable(string path) => disk.Read(root, path).WhyUnreadable;

    /// <inheritdoc/>
    public FileNode Parse(SourceText source, FindingList findings)
    {
        var tree = trees.Of(source);
        findings.AddRange(tree.Findings);
        return tree.File;
    }
}
