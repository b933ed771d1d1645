using WaterScript.Answers.Deployed;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Cli.Commands.Deployed;

/// <summary>Finds the revision that a list comes from: the one that it names, one with its sources, or one that gives the same list.</summary>
internal sealed class ListTracer
{
    private readonly SiteHistory? _history;
    private readonly GitCommits? _commits;
    private readonly string _sources;
    private readonly string _whyNot = "";

    /// <param name="site">The site as it is.</param>
    /// <param name="files">Its files, the root file first.</param>
    /// <param name="most">So many revisions are looked at.</param>
    /// <param name="terminal">Where the files lie.</param>
    public ListTracer(Site site, IReadOnlyList<SourceText> files, int most, Terminal terminal)
    {
        _sources = new Provenance(files[0].Path, [.. files], null).SourcesHash ?? "";
        var surroundings = terminal.Surroundings;
        try
        {
            if (files[0].Path == SiteSource.Standard) throw new CommandException("the file comes from standard input");
            var repository = GitRepository.Around(RealPath.Of(files[0].Path, surroundings), surroundings);
            var top = RealPath.Of(repository.Top, surroundings);
            string[] paths =
                [.. files.Select(file => Path.GetRelativePath(top, RealPath.Of(file.Path, surroundings)).Replace(Path.DirectorySeparatorChar, '/'))];
            _commits = new GitCommits(repository, site.TimeZone);
            _history = new SiteHistory(repository, _commits, site, paths, most, terminal.TimeZones);
            var isCommitted = SourceRevision.Of([.. files], surroundings) is not null;
            OfFile = new FileState(isCommitted ? _commits.LastOf(paths) : null, IsInRepository: true);
            IsShallow = repository.IsShallow;
        }
        catch (CommandException problem)
        {
            (_whyNot, OfFile) = (problem.Message, new FileState(Commit: null, IsInRepository: false));
        }
    }

    /// <summary>Where the file as it is stands.</summary>
    public FileState OfFile { get; }

    /// <summary>Whether the repository has not all revisions.</summary>
    public bool IsShallow { get; }

    /// <summary>Where a list comes from.</summary>
    public ListOrigin Of(DeployedList list)
    {
        var notes = list.Notes;
        var isFile = notes.Sources.Length > 0 && notes.Sources == _sources;
        var named = notes.Revision.Length > 0 ? Named(notes.Revision) : null;
        if (named is not null) return new ListOrigin(OriginSource.List) { Commit = named, IsFile = isFile };
        var unknown = notes.Revision.Length > 0 ? notes.Revision : null;
        if (isFile) return new ListOrigin(OriginSource.SameSources) { IsFile = true, Unknown = unknown };
        if (_history is null) return new ListOrigin(OriginSource.NotFound) { WhyNot = _whyNot, Unknown = unknown };
        return (BySources(notes.Sources) ?? ByRows(list)) with { Unknown = unknown, IsShallow = IsShallow };
    }

    /// <summary>Outside a repository, the name is all that is known.</summary>
    private Commit? Named(string revision) => _commits is { } commits ? commits.Named(revision)
        : GitRepository.IsObject(revision) ? new Commit(revision, revision[..Commit.FewestDigits], Subject: null, Date: null) : null;

    private ListOrigin? BySources(string sources)
    {
        for (var index = 0; sources.Length > 0 && _history!.At(index) is { } state; index++)
        {
            if (state.Sources == sources) return new ListOrigin(OriginSource.Search) { Commit = _commits!.Named(state.Introduced) };
        }

        return null;
    }

    /// <summary>Each revision compiled for the dates of the list, until one gives it, and then those before it that do too.</summary>
    private ListOrigin ByRows(DeployedList list)
    {
        var (nearest, apart) = (default(SiteState?), int.MaxValue);
        for (var index = 0; _history!.At(index) is { } state; index++)
        {
            if (Compared(list, state) is not { } comparison) continue;
            if (comparison.IsSame) return InARow(list, index);
            if (comparison.Apart < apart) (nearest, apart) = (state, comparison.Apart);
        }

        return new ListOrigin(OriginSource.NotFound)
        {
            Searched = _history.Searched,
            Commit = nearest is null ? null : _commits!.Named(nearest.Introduced),
            Apart = apart,
        };
    }

    private ListOrigin InARow(DeployedList list, int index)
    {
        var (newest, oldest) = (_history!.At(index)!, _history.At(index)!);
        while (_history.At(++index) is { } state && Compared(list, state) is { IsSame: true }) oldest = state;
        var first = _commits!.Named(oldest.Introduced);
        return oldest == newest
            ? new ListOrigin(OriginSource.Compiled) { Commit = first }
            : new ListOrigin(OriginSource.Compiled) { Commit = _commits.Named(newest.Introduced), First = first };
    }

    /// <summary>Null where the revision gives no list: because of an error, or since it is too much work.</summary>
    private static ListComparison? Compared(DeployedList list, SiteState state)
    {
        if (state.Site is not { } site) return null;
        try
        {
            return ListComparison.Of(list, site, new WorkBudget(Limits.CheckWorkOf(site.SourceLength)));
        }
        catch (Exception problem) when (problem is WorkUsedUpException or SwitchingContractException)
        {
            return null;
        }
    }
}
