using System.Collections.Immutable;
using WaterScript.Answers.Diff;
using WaterScript.Answers.Diff.Folders;
using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary>Compares the sites of a folder in two versions. One that cannot be read does not stand in the way of the others.</summary>
/// <param name="compare">Compares two sites of which there are both.</param>
/// <param name="terminal">Where errors of a new version are shown.</param>
internal sealed class FolderComparison(SiteComparison compare, Terminal terminal)
{
    private readonly ImmutableArray<SiteChanges>.Builder _sites = ImmutableArray.CreateBuilder<SiteChanges>();
    private int _untouched;

    /// <summary>Compares them.</summary>
    /// <param name="old">The old version.</param>
    /// <param name="new">The new one.</param>
    /// <param name="only">Whether a site counts, by the files that were read for it; null for all of them.</param>
    public FolderChanges Of(FolderVersion old, FolderVersion @new, Func<SiteReading, bool>? only = null)
    {
        foreach (var problem in old.Unreadable.Concat(@new.Unreadable)) terminal.Error.Line(problem);
        var before = old.Sites.ToDictionary(site => site.Key, site => Read(site.Value));
        var after = @new.Sites.ToDictionary(site => site.Key, site => Read(site.Value));
        var moved = Moved(before, after);
        foreach (var path in before.Keys.Concat(after.Keys).Distinct().Order(StringComparer.Ordinal))
        {
            if (moved.ContainsValue(path)) continue;
            var from = moved.GetValueOrDefault(path, path);
            var (was, now) = (before.GetValueOrDefault(from), after.GetValueOrDefault(path));
            if (only is not null && !((was?.Reading is { } one && only(one)) || (now?.Reading is { } other && only(other)))) continue;
            if (from == path && was is not null && now is not null && was.SaysTheSame(now)) _untouched++;
            else _sites.Add(Compared(path, from == path ? null : from, was, now));
        }

        return new FolderChanges(_sites.ToImmutable(), _untouched);
    }

    private SiteChanges Compared(string path, string? from, VersionRead? old, VersionRead? @new)
    {
        if (@new?.Sound is null && @new is not null) return new SiteChanges(path, from, null, Refused(@new));
        if (@new?.Sound is { } now)
        {
            if (old is null) return new SiteChanges(path, from, compare.Whole(now, DiffSides.New));
            if (old.Sound is { } was) return new SiteChanges(path, from, compare.Of(was, now));
            return new SiteChanges(path, from, compare.Whole(now, DiffSides.OldUnreadable), "the old version cannot be read: " + old.Problem);
        }

        return old?.Sound is { } gone
            ? new SiteChanges(path, from, compare.Whole(gone, DiffSides.Gone))
            : new SiteChanges(path, from, null, "it is gone, and the old version cannot be read: " + old?.Problem);
    }

    /// <summary>Shows what is wrong with a new version, which is for whoever changed it.</summary>
    private string Refused(VersionRead version)
    {
        if (version.Reading is { } reading) new FindingPrinter(terminal.Error).Print(reading.Findings);
        return "the new version cannot be read: " + version.Problem;
    }

    /// <summary>Sites that are in one version only, and called the same in both: the old path by the new one.</summary>
    private static Dictionary<string, string> Moved(Dictionary<string, VersionRead> old, Dictionary<string, VersionRead> @new)
    {
        var gone = old.Where(site => !@new.ContainsKey(site.Key) && site.Value.Name is not null).ToLookup(site => site.Value.Name!, site => site.Key);
        var come = @new.Where(site => !old.ContainsKey(site.Key) && site.Value.Name is not null).ToLookup(site => site.Value.Name!, site => site.Key);
        return come.Where(site => site.Count() == 1 && gone[site.Key].Count() == 1).ToDictionary(site => site.First(), site => gone[site.Key].First());
    }

    private static VersionRead Read(Func<SiteSource> open)
    {
        try
        {
            var source = open();
            return new VersionRead(source, source.Read(), "");
        }
        catch (CommandException problem)
        {
            return new VersionRead(null, null, problem.Message);
        }
    }
}

/// <summary>A version that was read.</summary>
/// <param name="Source">Where it comes from; null where that could not be opened.</param>
/// <param name="Reading">What reading gave; null likewise.</param>
/// <param name="Why">Why it could not be opened.</param>
internal sealed record VersionRead(SiteSource? Source, SiteReading? Reading, string Why)
{
    /// <summary>What the site is called, or null.</summary>
    public string? Name => Reading?.Site?.Name;

    /// <summary>The version, where it could be read without an error.</summary>
    public VersionRead? Sound => Reading is { Site: not null, Findings.HasErrors: false } ? this : null;

    /// <summary>Why it could not be read.</summary>
    public string Problem => Reading is null ? Why : FindingSummary.Of(Reading.Findings);

    /// <summary>Whether all files of both have the same text.</summary>
    public bool SaysTheSame(VersionRead other) => Reading is not null && other.Reading is not null
        && Reading.Files.Select(file => file.Source.Text).SequenceEqual(other.Reading.Files.Select(file => file.Source.Text), StringComparer.Ordinal);

    /// <summary>Checks it.</summary>
    public CheckedSite Checked(int share) => CheckedSite.Untried(Source!.Root.Path, Reading!, share: share);
}
