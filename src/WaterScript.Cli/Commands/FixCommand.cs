using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Text;
using WaterScript.Text.Diffs;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary><c>check --fix</c> and <c>check --diff</c>: one site after the other, files that they share with an eye to all.</summary>
/// <param name="terminal">Where differences go.</param>
/// <param name="notes">Where it is said what was done.</param>
/// <param name="problems">Keeps what goes wrong with one site from the others, and reports it.</param>
internal sealed class FixCommand(Terminal terminal, PlainLines notes, FileProblems problems)
{
    /// <summary>What each file holds, as far as this command knows: what was read, or what it has written since.</summary>
    private readonly Dictionary<string, SourceText> _onDisk = new(StringComparer.Ordinal);

    /// <summary>Writes what safe fixes change, and hands out what is found then.</summary>
    public IEnumerable<CheckedSite> Apply(ImmutableArray<string> paths, string? root, LocalDate? from)
    {
        if (paths.Contains(SiteSource.Standard))
            throw new CommandException("--fix writes files, and standard input is none; --diff shows what it would change");
        var sites = Open(paths, root, from);
        foreach (var corrected in FixAll(new FixApplier([.. sites.Select(site => site.Site)]), sites))
        {
            foreach (var file in corrected.After.Reading.Files) AtomicFile.RemoveLeft(file.Source.Path, terminal.Surroundings);
            if (problems.Try(corrected.After.Path, () => Written(corrected)) is null)
            {
                yield return corrected.Before.Tried(from);
                continue;
            }

            if (!corrected.Changed.IsEmpty) ReportApplied(corrected);
            yield return corrected.After.Tried(from);
        }
    }

    /// <summary>Each fix with its place, so that nobody has to look for what was changed.</summary>
    private void ReportApplied(FixedSite corrected)
    {
        foreach (var fix in corrected.Applied)
        {
            var place = fix.Edits[0].Location;
            var old = fix.Edits is [var only] && only.Replacement.Length > 0 && place.Span.Length > 0 ? $" for \"{place.Text}\"" : "";
            notes.Line($"{PlaceOf(place)}: {fix.Title}{old}");
        }

        notes.Line($"{string.Join(", ", corrected.Changed.Select(text => text.Path))}: {Phrases.Count(corrected.Applied.Length, "fix", "fixes")} applied.");
    }

    private static string PlaceOf(Location place) =>
        string.Create(CultureInfo.InvariantCulture, $"{place.Source.Path}:{place.Start.Line}:{place.Start.Column}");

    /// <summary>Writes the files of a site, none before it is known that all of them may be written and hold what was read.</summary>
    private FixedSite Written(FixedSite corrected)
    {
        foreach (var file in corrected.Before.Reading.Files) _onDisk.TryAdd(file.Source.Path, file.Source);
        foreach (var text in corrected.Changed) AtomicFile.Prepare(text.Path, terminal.Surroundings, FileContent.Of(_onDisk[text.Path]));
        foreach (var text in corrected.Changed)
        {
            FileContent.Write(text.Path, _onDisk[text.Path], text, terminal.Surroundings);
            _onDisk[text.Path] = text;
        }

        return corrected;
    }

    /// <summary>Shows what safe fixes would change.</summary>
    /// <returns>The gravest finding as things stand.</returns>
    public Severity? Diff(ImmutableArray<string> paths, string? root, LocalDate? from)
    {
        var gravest = default(Severity?);
        var sites = Open(paths, root, from);
        var fixApplier = new FixApplier([.. sites.Select(site => site.Site)]);
        foreach (var corrected in FixAll(fixApplier, sites))
        {
            if (gravest is null || corrected.Before.Worst > gravest) gravest = corrected.Before.Worst ?? gravest;
        }

        foreach (var (before, after) in fixApplier.Changes) UnifiedDiff.Write(before.Path, after.Path, before.Text, after.Text, terminal.Text);
        return gravest;
    }

    /// <summary>Fixes sites one after the other, each fix weighed against all of them.</summary>
    private IEnumerable<FixedSite> FixAll(FixApplier fixApplier, ImmutableArray<(string Path, FixTarget Site)> sites) =>
        sites.Select((site, index) => problems.Try(site.Path, () => Fix(fixApplier, site.Site, Progress.OfFiles(() => index, sites.Length))))
            .OfType<FixedSite>();

    private ImmutableArray<(string Path, FixTarget Site)> Open(ImmutableArray<string> paths, string? root, LocalDate? from) =>
    [
        .. paths.Select(path => (Path: path, Site: problems.Try(path, () => Open(path, root, from))))
            .Where(opened => opened.Site is not null)
            .Select(opened => (opened.Path, opened.Site!)),
    ];

    private FixTarget Open(string path, string? root, LocalDate? from)
    {
        var source = SiteSource.Open(path, root, terminal);
        var reading = source.Read();
        if (!source.IsText) notes.Line($"{source.Root.Path}: no fix applied, not all of it is written in UTF-8.");
        return new FixTarget(texts => CheckedSite.Untried(source.Root.Path, texts.IsEmpty ? reading : reading.Again!(texts), from), source.IsText);
    }

    private FixedSite Fix(FixApplier fixApplier, FixTarget site, Func<string>? reached)
    {
        var corrected = terminal.During("Fixing", () => fixApplier.Fix(site), reached);
        foreach (var (fix, path) in corrected.Needed)
            notes.Line($"{PlaceOf(fix.Edits[0].Location)}: not applied, since {path} uses what {corrected.After.Path} does not: {fix.Title}");
        foreach (var (fix, path) in corrected.Refused)
        {
            var place = fix.Edits[0].Location;
            var what = path == corrected.After.Path ? "another error" : $"another error or warning in {path}";
            notes.Line($"{PlaceOf(place)}: not applied, it would give {what}: {fix.Title}");
        }

        if (corrected.Untried > 0)
        {
            var (fixes, them) = (Phrases.Count(corrected.Untried, "more fix", "more fixes"), corrected.Untried == 1 ? "it" : "them");
            notes.Line($"{corrected.After.Path}: {fixes} not applied, trying {them} would be more work than it may be.");
        }

        return corrected;
    }
}
