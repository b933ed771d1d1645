using WaterScript.Binding;
using WaterScript.Text;

namespace WaterScript.Tests.Documentation;

/// <summary>The files of the repository, by their path from its root.</summary>
internal sealed class RepositoryFiles : ISourceReader
{
    /// <inheritdoc/>
    public SourceText? Read(string path) =>
        File.Exists(Path.Combine(Repository.Root, path)) ? SourceText.From(path, Repository.Read(path)) : null;
}
