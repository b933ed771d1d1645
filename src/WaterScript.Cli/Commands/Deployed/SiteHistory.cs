using NodaTime;
using WaterScript.Binding;
using WaterScript.Cli.Commands.Comparing;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Documents.Timetables;
using WaterScript.Model;

namespace WaterScript.Cli.Commands.Deployed;

/// <summary>What a site was in revisions that touched its files.</summary>
/// <param name="Newest">The newest revision in which it is so.</param>
/// <param name="Sources">The hash of its sources.</param>
/// <param name="Site">The site; null where an error stands in the way.</param>
internal sealed record SiteState(string Newest, string Sources, Site? Site)
{
    /// <summary>The oldest of them in a row, which made it so.</summary>
    public string Introduced { get; set; } = Newest;
}

/// <summary>The revisions of a site, the newest first, read as far as somebody asks.</summary>
/// <param name="repository">The repository.</param>
/// <param name="commits">Its commits.</param>
/// <param name="site">The site as it is.</param>
/// <param name="files">Its files as they are, from the top of the repository, the root file first.</param>
/// <param name="most">So many revisions are looked at.</param>
/// <param name="timeZones">Where time zones come from.</param>
internal sealed class SiteHistory(
    GitRepository repository, GitCommits commits, Site site, IReadOnlyList<string> files, int most, IDateTimeZoneProvider timeZones)
{
    private const string Ending = ".water";

    /// <summary>So many commits are listed for each that touches a file of the site.</summary>
    private const int MostOthers = 100;

    /// <summary>So often the whole of a revision is looked through for a file that has another name there.</summary>
    private const int MostLooks = 3;

    private readonly List<SiteState> _states = [];
    private readonly HashSet<string> _files = [.. files];
    private IEnumerator<(string Name, IReadOnlyList<string> Files)>? _commits;
    private string _path = files[0];
    private int _looks;
    private bool _isAtEnd;

    /// <summary>Revisions that were looked at so far.</summary>
    public int Searched { get; private set; }

    /// <summary>A state by its number, from 0 for the newest, with all revisions in a row that have it; null behind the last.</summary>
    public SiteState? At(int index)
    {
        while (_states.Count <= index + 1 && ReadOn())
        {
        }

        return index < _states.Count ? _states[index] : null;
    }

    /// <summary>Reads the next revision that touches a file of the site; false where there is none.</summary>
    private bool ReadOn()
    {
        _commits ??= commits.Touching(most * MostOthers).GetEnumerator();
        while (!_isAtEnd && Searched < most && _commits.MoveNext())
        {
            var (name, touched) = _commits.Current;
            if (!touched.Any(file => _files.Contains(file) || file.EndsWith(Ending, StringComparison.OrdinalIgnoreCase))) continue;
            if (Read(name) is not { } state) continue;
            Searched++;
            if (_states is [.., var last] && last.Sources == state.Sources) last.Introduced = name;
            else _states.Add(state);
            return true;
        }

        return !(_isAtEnd = true);
    }

    private SiteState? Read(string revision)
    {
        try
        {
            var tree = repository.TreeOf(revision);
            var source = SiteSource.Among(new RevisionFolder(revision, tree), _path, timeZones) ?? Renamed(revision, tree);
            if (source is null) return null;
            var reading = source.Read();
            _files.UnionWith(reading.Files.Select(file => file.Source.Path[(revision.Length + 1)..]));
            var sources = new Provenance(source.Root.Path, [.. reading.Files.Select(file => file.Source)], null).SourcesHash ?? "";
            return new SiteState(revision, sources, Sound(reading));
        }
        catch (CommandException)
        {
            return null; // Git does not hand it out: the others are still there.
        }
    }

    /// <summary>The file of the site where it had another name.</summary>
    private SiteSource? Renamed(string revision, GitTree tree)
    {
        if (++_looks > MostLooks) return null;
        foreach (var (path, open) in FolderVersion.OfRevision(revision, tree, "", timeZones).Sites)
        {
            var source = open();
            if (source.Read().Site?.Name != site.Name) continue;
            (_path, _looks) = (path, 0);
            return source;
        }

        return null;
    }

    private static Site? Sound(SiteReading reading) => reading is { Site: { } site, Findings.HasErrors: false } ? site : null;
}
