using System.Collections.Immutable;
using WaterScript.Answers.Diff;
using WaterScript.Answers.Diff.Folders;
using WaterScript.Answers.Diff.Rules;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary>
/// Compares two versions of a file that has no site: in each site around it that includes it, when nothing but this file changes; where none does, by
/// what is written.
/// </summary>
/// <param name="compare">How sites are compared.</param>
/// <param name="root">What <c>--root</c> says, or null.</param>
/// <param name="terminal">Where the files lie.</param>
internal sealed class PartComparison(SiteComparison compare, string? root, Terminal terminal)
{
    /// <summary>Whether a file is a part: it has no site.</summary>
    public static bool IsPart(SourceText source) => !SiteSearch.HasSite(SiteSearch.TreeOf(source));

    /// <summary>Compares two; one is null where there is no such version.</summary>
    /// <param name="old">The old one, and how the command line names it.</param>
    /// <param name="new">The new one, likewise.</param>
    /// <returns>What changes; null where an error stands in the way, which is shown.</returns>
    public FolderChanges? Of((SourceText? Source, string Name) old, (SourceText? Source, string Name) @new)
    {
        if (@new.Source is not null && SitesWith(@new.Name) is { Count: > 0 } sites)
        {
            return new FolderChanges([.. sites.Select(site => Compared(site, Other(site, old.Source), site.Version))], Untouched: 0)
            {
                Note = NoteOf(@new.Name, "include it"),
            };
        }

        if (@new.Source is not null && old.Source is not null && SitesWith(old.Name) is { Count: > 0 } others)
        {
            return new FolderChanges([.. others.Select(site => Compared(site, site.Version, Other(site, @new.Source)))], Untouched: 0)
            {
                Note = NoteOf(@new.Name, $"include {old.Name}"),
            };
        }

        return Alone(old.Source, @new.Source, @new.Source is null ? old.Name : @new.Name);
    }

    /// <summary>What is written otherwise in a part that no site includes; null where a version has an error, which is shown.</summary>
    public FolderChanges? Alone(SourceText? old, SourceText? @new, string name)
    {
        var findings = new FindingList();
        foreach (var source in new[] { old, @new }.OfType<SourceText>()) Parser.Parse(source, findings);
        if (findings.HasErrors)
        {
            new FindingPrinter(terminal.Error).Print(findings);
            return null;
        }

        var rows = PartChanges.Rows(old, @new);
        return new FolderChanges([], Untouched: 0)
        {
            Note = $"{name} has no site, and no site here includes it: compared is what is written, not what is watered"
                + (rows.IsEmpty ? "; nothing but layout or comments is another." : "."),
            Written = rows,
        };
    }

    private static string NoteOf(string name, string include) =>
        $"{name} has no site: compared is what changes in the sites that {include}, when nothing else does.";

    private SiteChanges Compared(PartOfSite site, VersionRead? old, VersionRead? @new)
    {
        if (@new?.Sound is not { } now)
        {
            if (@new?.Reading is { } reading) new FindingPrinter(terminal.Error).Print(reading.Findings);
            return new SiteChanges(site.Path, null, null, "the site has an error with the new version: " + @new?.Problem);
        }

        return old?.Sound is { } was
            ? new SiteChanges(site.Path, null, compare.Of(was, now))
            : new SiteChanges(site.Path, null, compare.Whole(now, DiffSides.OldUnreadable), "the site has an error with the old version: " + old?.Problem);
    }

    /// <summary>The same site with another text in place of the part.</summary>
    private static VersionRead? Other(PartOfSite site, SourceText? text)
    {
        if (text is null || site.Version.Reading?.Again is not { } again) return null;
        var texts = ImmutableDictionary.Create<string, SourceText>(StringComparer.Ordinal).Add(site.Part, SourceText.From(site.Part, text.Text));
        return site.Version with { Reading = again(texts) };
    }

    /// <summary>The sites that read a file.</summary>
    private List<PartOfSite> SitesWith(string name)
    {
        var sites = new List<PartOfSite>();
        foreach (var (path, open) in Around(name))
        {
            var source = open();
            var reading = source.Read();
            if (reading.Files.Select(file => file.Source.Path).FirstOrDefault(file => IsSame(file, name)) is not { } part) continue;
            sites.Add(new PartOfSite(path, part, new VersionRead(source, reading, "")));
        }

        return sites;
    }

    private bool IsSame(string file, string name)
    {
        var surroundings = terminal.Surroundings;
        if (!RevisionFolder.IsMeant(name, surroundings)) return RealPath.Of(file, surroundings) == RealPath.Of(name, surroundings);
        var (revision, path) = Parts(name);
        return file == $"{revision}:{path}";
    }

    /// <summary>All sites around a file: of its revision, or of the folder in which the command was started, if the file lies there, else of its own.</summary>
    private ImmutableSortedDictionary<string, Func<SiteSource>> Around(string name)
    {
        var surroundings = terminal.Surroundings;
        if (name == SiteSource.Standard) return ImmutableSortedDictionary<string, Func<SiteSource>>.Empty;
        if (RevisionFolder.IsMeant(name, surroundings))
        {
            var revision = Parts(name).Revision;
            return FolderVersion.OfRevision(revision, GitRepository.At(name, surroundings).TreeOf(revision), "", terminal.TimeZones).Sites;
        }

        var (file, here) = (RealPath.Of(name, surroundings), RealPath.Of(".", surroundings));
        return FolderVersion.OfFiles(RealPath.IsInside(file, here) ? "." : Path.GetDirectoryName(name)!, root, terminal).Sites;
    }

    private (string Revision, string Path) Parts(string name)
    {
        var colon = name.IndexOf(':', StringComparison.Ordinal);
        return (name[..colon], RevisionFolder.FromRoot(name[(colon + 1)..].Replace('\\', '/'), GitRepository.At(name, terminal.Surroundings).Prefix));
    }

    /// <summary>A site that reads a part.</summary>
    /// <param name="Path">Its root file.</param>
    /// <param name="Part">The part, as the site has it.</param>
    /// <param name="Version">The site as it stands.</param>
    private sealed record PartOfSite(string Path, string Part, VersionRead Version);
}
