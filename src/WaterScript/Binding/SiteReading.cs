using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>What reading a site gave.</summary>
/// <param name="Site">The site; null when too little of it could be read to be one. Only free of mistakes when no finding is an error.</param>
/// <param name="Files">The root file, then the included ones in the order in which they were reached, each once.</param>
/// <param name="Findings">What was found, by file in that order, then by place.</param>
internal sealed record SiteReading(Site? Site, ImmutableArray<FileNode> Files, FindingList Findings)
{
    /// <summary>Reads the same site again with other texts in place of some files, by the paths that findings show; null where that cannot be done.</summary>
    public Func<IReadOnlyDictionary<string, SourceText>, SiteReading>? Again { get; init; }
}
