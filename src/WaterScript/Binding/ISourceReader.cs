using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Gives the text of files; the only way in which the compiler reaches them.</summary>
internal interface ISourceReader
{
    /// <summary>Reads a file.</summary>
    /// <param name="path">Relative to the root folder, <c>/</c> between folders, without <c>.</c> and <c>..</c>.</param>
    /// <returns>The text, with the path that findings are to show; null when there is no such file.</returns>
    SourceText? Read(string path);

    /// <summary>Whether a path for which <see cref="Read"/> gives nothing leads out of the root folder, as a link can.</summary>
    bool LeadsOutside(string path) => false;

    /// <summary>
    /// Why a file that is there could not be read, in a few words without a full stop: it is a pipe, links lead in a circle. Null where it is not
    /// there.
    /// </summary>
    /// <param name="path">A path for which <see cref="Read"/> gave nothing.</param>
    string? WhyUnreadable(string path) => null;

    /// <summary>The tree of a file. Who reads a site again and again may keep those of files that stay as they were.</summary>
    /// <param name="source">The file.</param>
    /// <param name="findings">Takes what was found.</param>
    FileNode Parse(SourceText source, FindingList findings) => Parser.Parse(source, findings);
}
