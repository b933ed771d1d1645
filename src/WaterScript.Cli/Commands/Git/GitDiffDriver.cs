using WaterScript.Answers.Diff;
using WaterScript.Answers.Diff.Rules;
using WaterScript.Cli.Commands.Comparing;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Text;
using WaterScript.Text.Diffs;

namespace WaterScript.Cli.Commands.Git;

/// <summary>
/// What <c>git diff</c> shows of a file in place of its lines: what changes in the watering of each site that it belongs to, when nothing but this file
/// changes. It never fails: where a site cannot be read, it shows what is written otherwise, and at the least the lines.
/// </summary>
internal sealed class GitDiffDriver
{
    private const string Nothing = "/dev/null";
    private const int MostSites = 20;

    private readonly Terminal _terminal;
    private readonly string _path;
    private readonly SourceText? _old;
    private readonly SourceText? _new;
    private readonly string _oldBlob;
    private readonly string _newBlob;
    private readonly bool _isInWorkTree;

    /// <param name="arguments">As git gives them (git(1), GIT_EXTERNAL_DIFF): path, old file, its object, its mode, new file, its object, its mode.</param>
    /// <param name="terminal">Where it writes.</param>
    private GitDiffDriver(string[] arguments, Terminal terminal)
    {
        (_terminal, _path) = (terminal, arguments.Length > 7 ? arguments[7] : arguments[0]);
        (_oldBlob, _newBlob) = (arguments[2], arguments[5]);
        _old = Read(arguments[1], "old:" + arguments[0]);
        _new = Read(arguments[4], _path);
        _isInWorkTree = arguments[4] == _path || arguments[5].All(letter => letter == '0');
    }

    /// <summary>Shows what changes.</summary>
    /// <returns>The status, which git takes for a failure where it is not 0.</returns>
    public static int Show(string[] arguments, Terminal terminal)
    {
        terminal.Text.Line($"diff --waterscript {arguments[0]}");
        if (arguments.Length < 7)
        {
            terminal.Text.Line("an unfinished merge");
            return ExitCode.Success;
        }

        // Of a file with another name git gives that, too.
        if (arguments.Length > 7) terminal.Text.Line($"the file is called {arguments[7]} now");
        new GitDiffDriver(arguments, terminal).Show();
        return ExitCode.Success;
    }

    private void Show()
    {
        if (_old?.Text == _new?.Text)
        {
            _terminal.Text.Line("no change in its text");
            return;
        }

        if (IsShown()) return;
        Shown(() => PartChanges.Write(_old, _new, _terminal.Text), () => UnifiedDiff.Write(_path, _path, _old?.Text ?? "", _new?.Text ?? "", _terminal.Text));
    }

    /// <summary>Whether what changes in the watering could be shown.</summary>
    private bool IsShown()
    {
        var isShown = false;
        Shown(() =>
        {
            if (Context() is not { } context) return;
            foreach (var site in SitesOf(context).Take(MostSites))
            {
                var (was, now) = (Version(context, site, _old), Version(context, site, _new));
                if (!Reads(was, context.Path) && !Reads(now, context.Path)) continue;
                if (was is { Sound: null }) was = AsItWas(site) ?? was;
                if (Changes(was, now) is not { } changes) continue;
                ChangesText.Write(changes, _terminal.Text);
                isShown = true;
            }
        }, () => { });
        return isShown;
    }

    private WateringChanges? Changes(VersionRead? old, VersionRead? @new)
    {
        var compare = new SiteComparison(from: null, until: null, DiffScope.All, _terminal);
        if (@new is null) return old?.Sound is { } gone ? compare.Whole(gone, DiffSides.Gone) : null;
        if (@new.Sound is null) return null;
        if (old is null) return compare.Whole(@new, DiffSides.New);
        return old.Sound is not null ? compare.Of(old, @new) : compare.Whole(@new, DiffSides.OldUnreadable);
    }

    /// <summary>The files around the new version, or around the old one of a file that is gone.</summary>
    private BlobContext? Context()
    {
        var repository = GitRepository.At(_path, _terminal.Surroundings);
        if (_new is null) return BlobContext.Of(_oldBlob, _path, repository);
        return _isInWorkTree ? BlobContext.OfFiles(_path, repository.Top, _terminal) : BlobContext.Of(_newBlob, _path, repository);
    }

    /// <summary>
    /// A site among the files around the old version; null where that has an error, too. It is needed where another file changes together with this one,
    /// such as for a name that both have.
    /// </summary>
    private VersionRead? AsItWas(string site) =>
        BlobContext.Of(_oldBlob, _path, GitRepository.At(_path, _terminal.Surroundings)) is { } old && Version(old, site, _old) is { Sound: not null } sound
            ? sound : null;

    /// <summary>The file itself where it has a site, else the sites that may include it.</summary>
    private IEnumerable<string> SitesOf(BlobContext context) =>
        new[] { _old, _new }.OfType<SourceText>().Any(source => SiteSearch.HasSite(SiteSearch.TreeOf(source))) ? [context.Path] : context.Sites();

    private VersionRead? Version(BlobContext context, string site, SourceText? text) =>
        SiteSource.Among(new OverlaidFiles(context.Files(), context.Path, text), site, _terminal.TimeZones) is { } source
            ? new VersionRead(source, source.Read(), "") : null;

    private bool Reads(VersionRead? version, string path) =>
        version?.Reading!.Files.Any(file => ReferenceEquals(file.Source, _old) || ReferenceEquals(file.Source, _new) || file.Source.Path == path) == true;

    private SourceText? Read(string file, string shown)
    {
        if (file == Nothing) return null;
        try
        {
            using var stream = RegularFile.Open(_terminal.Surroundings.At(file));
            return new SourceFolder(_terminal.Surroundings.Here, _terminal.Surroundings).Decode(shown, stream);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Shows something, or else something simpler: whatever goes wrong, git goes on.</summary>
    private static void Shown(Action show, Action other)
    {
        try
        {
            show();
        }
#pragma warning disable CA1031 // Git ends with the driver's failure, and shows nothing of the other files.
        catch (Exception problem) when (problem is not ReaderGoneException)
#pragma warning restore CA1031
        {
            other();
        }
    }
}
