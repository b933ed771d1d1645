using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Diagnostics;

namespace WaterScript.Linting.Engine;

/// <summary>
/// Findings that were there when the linter was first used on a file, so that only new ones count. Errors of reading are never
/// in it: a file that cannot be read is not looked at.
/// </summary>
internal sealed class Baseline
{
    private const string Heading = "# WaterScript baseline 1: rule, how often, file, line. Findings in it do not count.";
    private readonly Dictionary<FindingKey, int> _counts;
    private readonly Func<string, string> _pathOf;

    private Baseline(Dictionary<FindingKey, int> counts, Func<string, string> pathOf) => (_counts, _pathOf) = (counts, pathOf);

    /// <summary>How many of its findings were not found since; whole when it was applied to all sites.</summary>
    public int Left => _counts.Values.Sum();

    /// <summary>The baseline of what some sites have.</summary>
    /// <param name="sites">The sites.</param>
    /// <param name="pathOf">The path of a file as the baseline names it, from the one that findings show.</param>
    public static Baseline Of(IEnumerable<CheckedSite> sites, Func<string, string> pathOf) =>
        new(sites.SelectMany(site => site.Findings).Where(CanBeIn).CountBy(finding => KeyOf(finding, pathOf)).ToDictionary(), pathOf);

    /// <summary>Reads a baseline.</summary>
    /// <param name="text">What <see cref="Write"/> wrote.</param>
    /// <param name="pathOf">The path of a file as the baseline names it, from the one that findings show.</param>
    /// <returns>Null when the text is no baseline.</returns>
    public static Baseline? Parse(string text, Func<string, string> pathOf)
    {
        ArgumentNullException.ThrowIfNull(text);
        var lines = text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n');
        if (lines[0] != Heading) return null;
        var counts = new Dictionary<FindingKey, int>();
        foreach (var line in lines.Skip(1))
        {
            if (line.Split('\t', 4) is not [var rule, var number, var path, var source]) return null;
            if (!int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var count)) return null;
            counts[new FindingKey(rule, path, source)] = count;
        }

        return new Baseline(counts, pathOf);
    }

    /// <summary>Writes it, in order of files, lines and rules.</summary>
    public void Write(TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Heading + "\n");
        var entries = _counts.OrderBy(entry => entry.Key.Path, StringComparer.Ordinal).ThenBy(entry => entry.Key.Line, StringComparer.Ordinal)
            .ThenBy(entry => entry.Key.Rule, StringComparer.Ordinal);
        foreach (var ((rule, path, line), count) in entries) output.Write(string.Create(CultureInfo.InvariantCulture, $"{rule}\t{count}\t{path}\t{line}\n"));
    }

    /// <summary>Takes out of a site's findings those that are in it, each as often as it is in it.</summary>
    public CheckedSite Apply(CheckedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        ImmutableArray<Finding> open = [.. site.Findings.Where(finding => !CanBeIn(finding) || !Take(KeyOf(finding, _pathOf)))];
        return site with { Findings = open, InBaseline = site.Findings.Length - open.Length };
    }

    private bool Take(FindingKey key)
    {
        if (_counts.GetValueOrDefault(key) == 0) return false;
        _counts[key]--;
        return true;
    }

    private static bool CanBeIn(Finding finding) => finding.Rule.CanBeAccepted || finding.Severity != Severity.Error;

    private static FindingKey KeyOf(Finding finding, Func<string, string> pathOf)
    {
        var key = FindingKey.Of(finding);
        return key with { Path = OnOneLine(pathOf(key.Path)) };
    }

    /// <summary>
    /// A path may hold what ends a line or a column; it is written as <c>\u000a</c>, and so is the backslash, so that no two paths become one.
    /// </summary>
    private static string OnOneLine(string path) => path.Any(IsEscaped)
        ? string.Concat(path.Select(letter => IsEscaped(letter) ? string.Create(CultureInfo.InvariantCulture, $"\\u{(int)letter:x4}") : letter.ToString()))
        : path;

    private static bool IsEscaped(char letter) => char.IsControl(letter) || letter is '\\' or '\u2028' or '\u2029';
}
