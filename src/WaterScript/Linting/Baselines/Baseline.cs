using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;

namespace WaterScript.Linting.Baselines;

/// <summary>
/// Findings that were there when the linter was first used on a file, and how bad each was, so that only what is new or worse counts. Errors of reading are
/// never in it: a file that cannot be read is not looked at.
/// </summary>
internal sealed class Baseline
{
    private readonly Dictionary<FindingKey, List<BaselineEntry>> _open;
    private readonly ImmutableHashSet<string> _files;
    private readonly HashSet<string> _read = new(StringComparer.Ordinal);
    private readonly BaselinePaths _paths;

    private Baseline(IEnumerable<BaselineEntry> entries, IEnumerable<string> files, BaselinePaths paths)
    {
        _open = entries.GroupBy(entry => entry.Key).ToDictionary(group => group.Key, group => group.OrderBy(entry => entry.Extent.Excess).ToList());
        _files = [.. files];
        _paths = paths;
    }

    /// <summary>How many of its findings were not found since in the files that were looked at; whole when it was applied to all sites.</summary>
    public int Left => _open.Values.SelectMany(entries => entries).Count(entry => _read.Contains(entry.Key.Path) || _paths.IsMissed(entry.Key.Path));

    /// <summary>The baseline of what some sites have.</summary>
    /// <param name="sites">The sites.</param>
    /// <param name="paths">How files are called in it.</param>
    public static Baseline Of(IReadOnlyCollection<CheckedSite> sites, BaselinePaths paths)
    {
        ArgumentNullException.ThrowIfNull(sites);
        var entries = sites.SelectMany(site => site.Findings).Where(CanBeIn)
            .Select(finding => new BaselineEntry(KeyOf(finding, paths), FindingExtent.Of(finding), finding.Heading));
        return new Baseline(entries, sites.SelectMany(site => PathsOf(site, paths)), paths);
    }

    /// <summary>Reads a baseline.</summary>
    /// <param name="text">What <see cref="Write"/> wrote.</param>
    /// <param name="paths">How files are called in it.</param>
    /// <returns>Null when the text is no baseline.</returns>
    public static Baseline? Parse(string text, BaselinePaths paths) =>
        BaselineText.Read(text) is var (files, entries) ? new Baseline(entries, files, paths) : null;

    /// <summary>Writes it, in order of files, lines and rules.</summary>
    public void Write(TextWriter output) => BaselineText.Write(output, _files, _open.Values.SelectMany(entries => entries));

    /// <summary>Takes out of a site's findings those that are in it and no worse.</summary>
    public CheckedSite Apply(CheckedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        _read.UnionWith(PathsOf(site, _paths));
        ImmutableArray<Finding> open = [.. site.Findings.Select(finding => CanBeIn(finding) ? Judge(finding) : finding).OfType<Finding>()];
        return site with { Findings = open, InBaseline = site.Findings.Length - open.Length };
    }

    /// <summary>A finding that counts, with what the baseline has where it is worse than that; null where it does not count.</summary>
    private Finding? Judge(Finding finding)
    {
        var (key, extent) = (KeyOf(finding, _paths), FindingExtent.Of(finding));
        if (EntriesFor(key) is not { } entries) return finding;
        if (entries.Find(entry => extent.IsWithin(entry.Extent)) is { } known)
        {
            entries.Remove(known);
            return null;
        }

        var worse = entries[^1];
        entries.Remove(worse);
        return finding with { Details = $"{finding.Details}{(finding.Details.Length > 0 ? "\n" : "")}{WorseThan(worse, extent)}" };
    }

    private static string WorseThan(BaselineEntry then, FindingExtent now) => now.Times > then.Extent.Times
        ? string.Create(CultureInfo.InvariantCulture, $"Worse than in the baseline: {then.Heading}; {then.Extent.Times} times then, {now.Times} now.")
        : $"Worse than in the baseline: {then.Heading}.";

    /// <summary>What is left of a finding, or of the same in a file that is gone, where this one has come since; null where nothing is.</summary>
    private List<BaselineEntry>? EntriesFor(FindingKey key)
    {
        if (_open.TryGetValue(key, out var own) && own.Count > 0) return own;
        if (_files.Contains(key.Path)) return null;
        return _open.Where(entry => entry.Key.Rule == key.Rule && entry.Key.Line == key.Line && entry.Value.Count > 0 && !_paths.IsThere(entry.Key.Path))
            .OrderBy(entry => NameOf(entry.Key.Path) == NameOf(key.Path) ? 0 : 1).ThenBy(entry => entry.Key.Path, StringComparer.Ordinal)
            .Select(entry => entry.Value).FirstOrDefault();
    }

    private static string NameOf(string path) => path[(path.LastIndexOf('/') + 1)..];

    private static bool CanBeIn(Finding finding) => finding.Rule.CanBeAccepted || finding.Severity != Severity.Error;

    private static IEnumerable<string> PathsOf(CheckedSite site, BaselinePaths paths) =>
        site.Reading.Files.Select(file => paths.NameOf(file.Source.Path));

    private static FindingKey KeyOf(Finding finding, BaselinePaths paths)
    {
        var key = FindingKey.Of(finding);
        return key with { Path = paths.NameOf(key.Path) };
    }
}

/// <summary>A finding in a baseline.</summary>
/// <param name="Key">Which.</param>
/// <param name="Extent">How bad it was.</param>
/// <param name="Heading">What was found.</param>
internal sealed record BaselineEntry(FindingKey Key, FindingExtent Extent, string Heading);

/// <summary>Files as a baseline knows them.</summary>
/// <param name="NameOf">The path of a file as the baseline names it, from the one that findings show.</param>
/// <param name="IsThere">Whether a file is still there, by its name in the baseline.</param>
/// <param name="IsMissed">Whether a file, by its name in the baseline, is gone from a folder that is looked through.</param>
internal sealed record BaselinePaths(Func<string, string> NameOf, Func<string, bool> IsThere, Func<string, bool> IsMissed);
