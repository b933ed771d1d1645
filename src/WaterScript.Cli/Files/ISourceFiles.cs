using WaterScript.Binding;
using WaterScript.Diagnostics;

namespace WaterScript.Cli.Files;

/// <summary>Files that a site can be read from, in a folder or in a revision.</summary>
internal interface ISourceFiles : ISourceReader
{
    /// <summary>What was found about the files themselves.</summary>
    IReadOnlyList<Finding> Findings { get; }
}
