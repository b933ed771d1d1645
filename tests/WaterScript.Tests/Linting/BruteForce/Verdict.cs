using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>What a judge and the linter say about one rule on one site, side by side.</summary>
internal sealed class Verdict(Judge judge, Evidence evidence, IReadOnlyList<Finding> all, string text)
{
    private static readonly Dictionary<About, string[]> Heads = new()
    {
        [About.Supply] = ["supply"],
        [About.Controller] = ["controller"],
        [About.Device] = ["pump", "master"],
        [About.Zone] = ["zone"],
        [About.Schedule] = ["schedule", "extra"],
        [About.Restriction] = ["restriction"],
        [About.RestrictionLine] = ["restriction"],
    };

    private readonly string[] _lines = text.Split('\n');

    /// <summary>Whether there is any conflict.</summary>
    public bool IsBroken { get; private set; }

    /// <summary>In what they differ, or null.</summary>
    public string? Difference()
    {
        var conflicts = judge.Conflicts(evidence).ToLookup(conflict => KeyOf([conflict.Origin, .. conflict.Other is { } other ? new[] { other } : []]));
        var (findings, others) = (FindingsOf(judge.Slug), FindingsOf(judge.Instead));
        IsBroken = conflicts.Count > 0;
        return conflicts.Select(group => group.Key).Union(findings.Concat(others).Select(group => group.Key))
            .Select(key => Difference(key, [.. conflicts[key].OrderBy(conflict => conflict.At)], [.. findings[key]], [.. others[key]]))
                .FirstOrDefault(difference => difference is not null);
    }

    private ILookup<string, Finding> FindingsOf(string? slug) => all
        .Where(finding => finding.Rule.Slug == slug && finding.Happens is not null && !IsLater(finding))
        .ToLookup(finding => KeyOf([finding.Primary.Location, .. finding.Others.Select(label => label.Location)]));

    private string? Difference(string key, List<Conflict> conflicts, List<Finding> findings, List<Finding> others)
    {
        var where = $"{judge.Slug} at line {key}";
        if (others.Count > 0) return conflicts.Count == 0 || findings.Exists(finding => FirstOf(finding) < Local(conflicts[0].At))
            ? $"{where}: false alarm, {findings.Concat(others).First().Happens}" : null;
        if (findings.Count == 0) return $"{where}: missed, {Shown(conflicts[0].At)} is the first of {conflicts.Count}";
        if (conflicts.Count == 0) return $"{where}: false alarm, {findings[0].Happens}";
        var (first, last) = (Local(conflicts[0].At), Local(conflicts[^1].At));
        if (!findings.Exists(finding => FirstOf(finding) == first) || (!IsDoubled(conflicts[0].At) && findings.Exists(finding => FirstOf(finding) < first)))
            return $"{where}: first {Shown(conflicts[0].At)}, found {string.Join("; ", findings.Select(finding => finding.Happens))}";
        var times = findings.Sum(finding => finding.Happens!.Times);
        if (!judge.Counts) return null;
        if (judge.HasCauses && findings.Count > 1) return times >= conflicts.Count ? null : $"{where}: {conflicts.Count} times, found {times}";
        if (times != conflicts.Count)
            return $"{where}: {conflicts.Count} times, found {times}: {string.Join("; ", conflicts.Take(20).Select(conflict => Shown(conflict.At)))}";
        if (!findings.Exists(finding =>
            LastOf(finding) == last)) return $"{where}: last {Shown(conflicts[^1].At)}, found {string.Join("; ", findings.Select(finding => finding.Happens))}";
        var days = conflicts.Select(conflict => evidence.DateOf(conflict.At)).Distinct().Count();
        return findings.Count == 1 && findings[0].Happens!.Days != days ? $"{where}: on {days} days, found {findings[0].Happens}" : null;
    }

    private LocalDateTime Local(long second) => judge.OfDates ? evidence.DateOf(second).AtMidnight() : evidence.Local(second);

    private LocalDateTime FirstOf(Finding finding) => AsLocal(finding.Happens!.First);

    private LocalDateTime LastOf(Finding finding) => AsLocal(finding.Happens!.Last);

    private LocalDateTime AsLocal(LocalDateTime moment) => judge.OfDates ? moment.Date.AtMidnight() : moment.With(TimeAdjusters.TruncateToSecond);

    /// <summary>Whether it is decided beyond the horizon, where the judge does not look.</summary>
    private static bool IsLater(Finding finding) => finding.Happens!.Basis != Basis.Horizon;

    private bool IsDoubled(long second) => evidence.Site.TimeZone.MapLocal(evidence.Local(second)).Count == 2;

    private string Shown(long second) => evidence.Local(second).ToString("uuuu-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>Line numbers of the blocks, of the kind that the rule is about, in which places lie; or of the places themselves.</summary>
    private string KeyOf(IEnumerable<Location> places)
    {
        var heads = places.Select(place => (Line: place.Start.Line, Head: HeadOf(place.Start.Line)))
            .Where(each => Array.Exists(Heads[judge.About], word => _lines[each.Head - 1].StartsWith(word + " ", StringComparison.Ordinal)));
        var lines = heads.Select(each => judge.About == About.RestrictionLine ? each.Line : each.Head).Distinct().Order();
        return string.Join(" and ", lines.Select(line => line.ToString(CultureInfo.InvariantCulture)));
    }

    private int HeadOf(int line)
    {
        while (line > 1 && (_lines[line - 1].StartsWith(' ') || _lines[line - 1].StartsWith('}'))) line--;
        return line;
    }
}
