using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Editing;
using WaterScript.Editing.Names;
using WaterScript.Linting.Engine;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>A site as its files were at one time: read and checked when somebody asks, once. Any number of threads may ask.</summary>
internal sealed class SiteAnalysis
{
    private readonly SiteFiles _files;
    private readonly Lazy<SiteReading> _reading;
    private readonly Lock _checking = new();
    private CheckedSite? _check;
    private CheckedSite? _tried;
    private readonly Lazy<EditedSite> _edited;

    /// <summary>A site.</summary>
    /// <param name="path">Its root file, absolute, every link followed.</param>
    /// <param name="source">The text of that.</param>
    /// <param name="workspace">Where the other files are.</param>
    public SiteAnalysis(string path, SourceText source, Snapshot workspace)
    {
        Path = path;
        var clock = workspace.Surroundings.Clock;
        Root = source;
        var folder = RealPath.Of(RootFolder.Of(System.IO.Path.GetDirectoryName(path)!, requested: null, workspace.Surroundings), workspace.Surroundings);
        _files = new SiteFiles(folder, workspace.Documents, workspace.Disk, workspace.Trees);
        var inFolder = System.IO.Path.GetRelativePath(folder, path).Replace(System.IO.Path.DirectorySeparatorChar, '/');
        _reading = new Lazy<SiteReading>(() => SiteSource.Of(source, inFolder, _files, workspace.Disk.TimeZones).Read());
        _edited = new Lazy<EditedSite>(() => new EditedSite(_reading.Value, () => CheckIfKnown?.Lint, clock.GetCurrentInstant()));
    }

    /// <summary>Its root file, absolute, every link followed.</summary>
    public string Path { get; }

    /// <summary>The text of that.</summary>
    public SourceText Root { get; }

    /// <summary>What reading it gives.</summary>
    public SiteReading Reading => _reading.Value;

    /// <summary>What checking it gives; reading alone where that has errors. Fixes are not tried yet: that takes a check for each of them.</summary>
    /// <exception cref="OperationCanceledException">It was stopped; who asks next begins anew.</exception>
    public CheckedSite Check(CancellationToken stop)
    {
        if (CheckIfKnown is { } known) return known;
        lock (_checking) return _check ??= CheckedSite.Untried(Root.Path, Reading, stop: stop);
    }

    /// <summary>The same with those of its fixes that do no harm.</summary>
    /// <exception cref="OperationCanceledException">It was stopped; who asks next begins anew.</exception>
    public CheckedSite Tried(CancellationToken stop)
    {
        lock (_checking) return _tried ??= (_check ??= CheckedSite.Untried(Root.Path, Reading, stop: stop)).Tried(from: null, stop: stop);
    }

    /// <summary>What checking it gives, where it is known already.</summary>
    public CheckedSite? CheckIfKnown => Volatile.Read(ref _check);

    /// <summary>What an editor shows of it.</summary>
    public EditedSite Edited => _edited.Value;

    /// <summary>Its names.</summary>
    public NameIndex Names => Edited.Names;

    /// <summary>The tree of one of its files; null where it has no such file.</summary>
    public FileNode? FileOf(SourceText source) => Reading.Files.FirstOrDefault(file => ReferenceEquals(file.Source, source));

    /// <summary>Whether it may still be used when a file has changed.</summary>
    public bool IsApartFrom(string path) => _reading.IsValueCreated && path != Path && !_files.Asked.Contains(path);
}
