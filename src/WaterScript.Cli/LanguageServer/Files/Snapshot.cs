using System.Collections.Concurrent;
using System.Collections.Immutable;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Documents.Reports;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>
/// All documents and files as they are at one time. It does not change any more; a request is answered by the one that was there when it came, whatever is
/// typed meanwhile.
/// </summary>
internal sealed class Snapshot
{
    /// <summary>Characters of a file that is read and checked while it is edited.</summary>
    public const int MostCharacters = 5_000_000;

    private readonly ConcurrentDictionary<string, SiteAnalysis> _sites;
    private readonly Lazy<IncludeMap> _includes;

    private Snapshot(DiskFiles disk, Trees trees, ImmutableDictionary<string, OpenDocument> documents, ImmutableArray<string> known,
        ConcurrentDictionary<string, SiteAnalysis> sites)
    {
        (Disk, Trees, Documents, KnownFiles, _sites) = (disk, trees, documents, known, sites);
        _includes = new Lazy<IncludeMap>(() => IncludeMap.Of(this));
    }

    /// <summary>Nothing is open.</summary>
    public static Snapshot Empty(Surroundings surroundings, IDateTimeZoneProvider timeZones) =>
        new(new DiskFiles(surroundings, timeZones), new Trees(), ImmutableDictionary<string, OpenDocument>.Empty, [], []);

    /// <summary>Files that are not open.</summary>
    public DiskFiles Disk { get; }

    /// <summary>The trees of all files.</summary>
    public Trees Trees { get; }

    /// <summary>What is open, by the path of its file.</summary>
    public ImmutableDictionary<string, OpenDocument> Documents { get; }

    /// <summary>The files of the language in the folders that are worked in.</summary>
    public ImmutableArray<string> KnownFiles { get; }

    /// <summary>Where paths start from.</summary>
    public Surroundings Surroundings => Disk.Surroundings;

    /// <summary>The document that is open of a file; null where there is none.</summary>
    public OpenDocument? OpenAt(string path) => Documents.GetValueOrDefault(path);

    /// <summary>The text of a file; null where it cannot be read.</summary>
    public SourceText? TextAt(string path) => OpenAt(path)?.Source ?? Disk.Read(Path.GetDirectoryName(path)!, Path.GetFileName(path)).Text;

    /// <summary>The tree of a file; null where it cannot be read, or is too large to be read while it is edited.</summary>
    public FileNode? TreeAt(string path) => TextAt(path) is { Text.Length: <= MostCharacters } text ? Trees.Of(text).File : null;

    /// <summary>The site of a root file; null where it cannot be read, or is too large to be read while it is edited.</summary>
    public SiteAnalysis? SiteAt(string root)
    {
        if (_sites.TryGetValue(root, out var known)) return known;
        return TextAt(root) is { Text.Length: <= MostCharacters } text ? _sites.GetOrAdd(root, new SiteAnalysis(root, text, this)) : null;
    }

    /// <summary>The sites that a file belongs to, by their root files; a file that no site includes stands alone.</summary>
    public ImmutableArray<SiteAnalysis> SitesOf(string path) => [.. _includes.Value.RootsOf(path).Select(SiteAt).OfType<SiteAnalysis>()];

    /// <summary>Whether a file has a site, or belongs to one.</summary>
    public bool IsPartOfSite(string path) => _includes.Value.IsPartOfSite(path);

    /// <summary>The root files of all sites in the folders that are worked in, and of what is open.</summary>
    public ImmutableArray<string> Roots => _includes.Value.Roots;

    /// <summary>How a client calls the file of a text.</summary>
    public string UriOf(SourceText source)
    {
        var path = Surroundings.Whole(source.Path);
        return (OpenAt(path) ?? Documents.Values.FirstOrDefault(open => ReferenceEquals(open.Source, source)))?.Uri
            ?? FileUri.Of(path.Replace(Path.DirectorySeparatorChar, '/'));
    }

    /// <summary>The version of the document that a text is of; null for a file that is not open.</summary>
    public int? VersionOf(SourceText source) => Documents.Values.FirstOrDefault(open => ReferenceEquals(open.Source, source))?.Version;

    /// <summary>The same with a document opened or changed.</summary>
    public Snapshot With(OpenDocument document) => Changed(Documents.SetItem(document.Path, document), document.Path);

    /// <summary>The same with a document closed: the file counts again.</summary>
    public Snapshot Without(string path) => Changed(Documents.Remove(path), path);

    /// <summary>The same after some files have changed.</summary>
    public Snapshot After(IEnumerable<string> paths) => new(Disk, Trees, Documents, KnownFiles, Kept([.. paths]));

    /// <summary>
    /// The same with other files in the folders that are worked in. No text is another, so what one of them works out of a site holds for both.
    /// </summary>
    public Snapshot Knowing(ImmutableArray<string> files) => new(Disk, Trees, Documents, files, _sites);

    private Snapshot Changed(ImmutableDictionary<string, OpenDocument> documents, string path) => new(Disk, Trees, documents, KnownFiles, Kept(path));

    private ConcurrentDictionary<string, SiteAnalysis> Kept(params IReadOnlyCollection<string> paths) =>
        new(_sites.Where(site => paths.All(site.Value.IsApartFrom)));
}
