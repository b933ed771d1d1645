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

/// <summary><c>check --fix</c> and <c>check --diff</c>: one site after the other, because they may share files.</summary>
/// <param name="terminal">Where differences go.</param>
/// <param name="notes">Where it is said what was done.</param>
internal sealed class FixCommand(Terminal terminal, TextWriter notes)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes what safe fixes change, and hands out what is found then.</summary>
    public IEnumerable<CheckedSite> Apply(ImmutableArray<string> paths, string? root, LocalDate? from)
    {
        foreach (var (index, path) in paths.Index())
        {
            if (path == SiteSource.Standard) throw new CommandException("--fix writes files, and standard input is none; --diff shows what it would change");
            var mending = Mend(path, root, from, Progress.OfFiles(() => index, paths.Length));
            var changes = mending.Changes.ToList();
            foreach (var (_, after) in changes) AtomicFile.Write(after.Path, stream => Write(after, stream));
            if (changes.Count > 0)
                notes.Write(string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", changes.Select(change => change.After.Path))}: {mending.Applied} {(mending.Applied == 1 ? "fix" : "fixes")} applied.\n"));
            yield return mending.After;
        }
    }

    /// <summary>Shows what safe fixes would change.</summary>
    /// <returns>The gravest finding as things stand.</returns>
    public Severity? Diff(ImmutableArray<string> paths, string? root, LocalDate? from)
    {
        var gravest = default(Severity?);
        foreach (var (index, path) in paths.Index())
        {
            var mending = Mend(path, root, from, Progress.OfFiles(() => index, paths.Length));
            foreach (var (before, after) in mending.Changes) terminal.Text.Write(UnifiedDiff.Of(before.Path, after.Path, before.Text, after.Text));
            if (gravest is null || mending.Before.Worst > gravest) gravest = mending.Before.Worst ?? gravest;
        }

        return gravest;
    }

    private Mending Mend(string path, string? root, LocalDate? from, Func<string>? reached)
    {
        var source = SiteSource.Open(path, root, terminal);
        var reading = source.Read();
        if (!source.IsText) notes.Write($"{source.Root.Path}: no fix applied, not all of it is written in UTF-8.\n");
        CheckedSite Check(ImmutableDictionary<string, SourceText> texts) => CheckedSite.Of(source.Root.Path, texts.IsEmpty ? reading : source.Read(texts), from);
        var mending = terminal.During("Mending", () => Mending.Of(Check, isAllowed: source.IsText), reached);
        foreach (var fix in mending.Refused)
        {
            var place = fix.Edits[0].Location;
            notes.Write(string.Create(CultureInfo.InvariantCulture, $"{place.Source.Path}:{place.Start.Line}:{place.Start.Column}: not applied, it would give another error: {fix.Title}\n"));
        }

        return mending;
    }

    private static void Write(SourceText text, Stream stream)
    {
        if (text.HasByteOrderMark) stream.Write(Encoding.UTF8.Preamble);
        stream.Write(Utf8.GetBytes(text.Text));
    }
}
