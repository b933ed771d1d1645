using WaterScript.Binding;
using WaterScript.Text;

namespace WaterScript.Tests.Documentation;

/// <summary>Files that are only in memory, by path.</summary>
internal sealed class MemoryFiles(IReadOnlyDictionary<string, string> files) : ISourceReader
{
    /// <inheritdoc/>
    public SourceText? Read(string path) => files.TryGetValue(path, out var text) ? SourceText.From(path, text) : null;
}
