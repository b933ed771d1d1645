using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.Files.Git;

/// <summary>Files of which one is another, or is not there.</summary>
/// <param name="files">The files.</param>
/// <param name="path">The path of the one, as they have it.</param>
/// <param name="text">Its text; null where it is not there.</param>
internal sealed class OverlaidFiles(ISourceFiles files, string path, SourceText? text) : ISourceFiles
{
    /// <inheritdoc/>
    public IReadOnlyList<Finding> Findings => files.Findings;

    /// <inheritdoc/>
    public SourceText? Read(string asked) => asked == path ? text : files.Read(asked);

    /// <inheritdoc/>
    public bool LeadsOutside(string asked) => asked != path && files.LeadsOutside(asked);

    /// <inheritdoc/>
    public string? WhyUnreadable(string asked) => asked == path ? null : files.WhyUnreadable(asked);
}
