using WaterScript.Diagnostics;
using WaterScript.Syntax.Generated;
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
    public static FileNode Parse(SourceText source, FindingList findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        var mistakes = new Mistakes(source);
        var (tokens, comments) = TokenReader.Read(source);
        var parser = new WaterScriptParser(tokens, TextWriter.Null, TextWriter.Null);
        parser.Begin(source, mistakes);
        var file = new FileNode(source, [.. parser.file().nodes], comments);
        mistakes.HandOver(findings);
        return file;
    }
}
