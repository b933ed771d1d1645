using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Text to tree.</summary>
public static class Parser
{
    /// <summary>
    /// Reads a file. What cannot be read is reported and left out; the rest is in the tree.
    /// </summary>
    /// <param name="source">The file.</param>
    /// <param name="findings">Takes what was found, in order of place.</param>
    public static FileNode Parse(SourceText source, FindingList findings) => throw new NotImplementedException();
}
