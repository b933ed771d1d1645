using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Files as they were when they were read first: each is read once, however often its site is looked at again.</summary>
/// <param name="files">Where they come from.</param>
internal sealed class FilesRead(ISourceReader files) : ISourceReader
{
    private readonly Dictionary<string, SourceText?> _texts = new(StringComparer.Ordinal);

    /// <summary>What is known of files with other texts in place of some, by the paths that findings show.</summary>
    public FilesRead With(IReadOnlyDictionary<string, SourceText> texts) => new(new Changed(this, texts));

    public SourceText? Read(string path)
    {
        if (!_texts.TryGetValue(path, out var text)) _texts[path] = text = files.Read(path);
        return text;
    }

    public bool LeadsOutside(string path) => files.LeadsOutside(path);

    public string? WhyUnreadable(string path) => files.WhyUnreadable(path);

    public FileNode Parse(SourceText source, FindingList findings) => files.Parse(source, findings);

    private sealed class Changed(FilesRead files, IReadOnlyDictionary<string, SourceText> texts) : ISourceReader
    {
        public SourceText? Read(string path) => files.Read(path) is { } text ? texts.GetValueOrDefault(text.Path, text) : null;

        public bool LeadsOutside(string path) => files.LeadsOutside(path);

        public string? WhyUnreadable(string path) => files.WhyUnreadable(path);

        public FileNode Parse(SourceText source, FindingList findings) => files.Parse(source, findings);
    }
}
