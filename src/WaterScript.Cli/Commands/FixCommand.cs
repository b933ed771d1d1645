using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Checks;
using WaterScript.Cli.Files;
using WaterScript.Comparison;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.Commands;

/// <summary><c>check --fix</c> and <c>check --diff</c>: one site after the other, files that they share with an eye to all.</summary>
/// <param name="terminal">Where differences go.</param>
/// <param name="notes">Where it is said what was done.</param>
/// <param name="problems">Keeps what goes wrong with one site from the others, and reports it.</param>
internal sealed class FixCommand(Terminal terminal, PlainLines notes, FileProblems problems)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes what safe fixes change, and hands out what is found then.</summary>
    public IEnumerable<CheckedSite> Apply(ImmutableArray<string> paths, string? root, LocalDate? from)
    {
        if (paths.Contains(SiteSource.Standard)) throw new CommandException("--fix writes files, and standard input is none; --diff shows what it would change");
        var sites = Open(paths, root, from);
        foreach (var mended in MendAll(new Mending([.. sites.Select(site => site.Site)]), sites))
        {
            foreach (var file in mended.After.Reading.Files) AtomicFile.RemoveLeft(file.Source.Path);
            if (problems.Try(mended.After.Path, () => Written(mended)) is null)
            {
                yield return mended.Before;
                continue;
            }

            if (!mended.Changed.IsEmpty)
                notes.Line(string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", mended.Changed.Select(text => text.Path))}: {mended.Applied} {(mended.Applied == 1 ? "fix" : "fixes")} applied."));
            yield return mended.After;
        }
    }

    /// <summary>Writes the files of a site, none before it is known that all of them may be written.</summary>
    private static MendedSite Written(MendedSite mended)
    {
        foreach (var text in mended.Changed) AtomicFile.Prepare(text.Path);
        foreach (var text in mended.Changed) AtomicFile.Write(text.Path, stream => Write(text, stream));
        return mended;
    }

    /// <summary>Shows what safe fixes would change.</summary>
    /// <returns>The gravest finding as things stand.</returns>
    public Severity? Diff(ImmutableArray<string> paths, string? root, LocalDate? from)
    {
        var gravest = default(Severity?);
        var sites = Open(paths, root, from);
        var mending = new Mending([.. sites.Select(site => site.Site)]);
        foreach (var mended in MendAll(mending, sites))
        {
            if (gravest is null || mended.Before.Worst > gravest) gravest = mended.Before.Worst ?? gravest;
        }

        foreach (var (before, after) in mending.Changes) UnifiedDiff.Write(before.Path, after.Path, before.Text, after.Text, terminal.Text);
        return gravest;
    }

    /// <summary>Mends sites one after the other, each fix weighed against all of them.</summary>
    private IEnumerable<MendedSite> MendAll(Mending mending, ImmutableArray<(string Path, SiteToMend Site)> sites) =>
        sites.Select((site, index) => problems.Try(site.Path, () => Mend(mending, site.Site, Progress.OfFiles(() => index, sites.Length)))).OfType<MendedSite>();

    private ImmutableArray<(string Path, SiteToMend Site)> Open(ImmutableArray<string> paths, string? root, LocalDate? from) =>
    [
        .. paths.Select(path => (Path: path, Site: problems.Try(path, () => Open(path, root, from))))
            .Where(opened => opened.Site is not null)
            .Select(opened => (opened.Path, opened.Site!)),
    ];

    private SiteToMend Open(string path, string? root, LocalDate? from)
    {
        var source = SiteSource.Open(path, root, terminal);
        var reading = source.Read();
        if (!source.IsText) notes.Line($"{source.Root.Path}: no fix applied, not all of it is written in UTF-8.");
        return new SiteToMend(texts => CheckedSite.Of(source.Root.Path, texts.IsEmpty ? reading : source.Read(texts), from), source.IsText);
    }

    private MendedSite Mend(Mending mending, SiteToMend site, Func<string>? reached)
    {
        var mended = terminal.During("Mending", () => mending.Mend(site), reached);
        foreach (var (fix, path) in mended.Refused)
        {
            var place = fix.Edits[0].Location;
            var what = path == mended.After.Path ? "another error" : $"another error or warning in {path}";
            notes.Line(string.Create(CultureInfo.InvariantCulture, $"{place.Source.Path}:{place.Start.Line}:{place.Start.Column}: not applied, it would give {what}: {fix.Title}"));
        }

        return mended;
    }

    private static void Write(SourceText text, Stream stream)
    {
        if (text.HasByteOrderMark) stream.Write(Encoding.UTF8.Preamble);
        stream.Write(Utf8.GetBytes(text.Text));
    }
}
