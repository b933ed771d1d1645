using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Wording;

namespace WaterScript.Documents.Verdicts;

/// <summary>What the checks of several sites come to. It keeps no site, so that there may be any number of them.</summary>
internal sealed class SitesVerdict
{
    private const int FewSingles = 3;

    private readonly Dictionary<Rule, int> _byRule = [];
    private readonly Dictionary<Severity, int> _bySeverity = [];
    private readonly SortedDictionary<Concern, (int Sites, HashSet<string> Remedies)> _gaps = [];
    private readonly List<string> _unread = [];
    private readonly List<string> _cut = [];
    private int _sites, _withFindings, _accepted, _inBaseline;
    private LocalDate? _until;

    /// <summary>Counts a site.</summary>
    public void Add(CheckedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        _sites++;
        (_accepted, _inBaseline) = (_accepted + site.Accepted.Length, _inBaseline + site.InBaseline);
        if (!site.Findings.IsEmpty || site.Shared > 0) _withFindings++;
        foreach (var finding in site.Findings)
        {
            _byRule[finding.Rule] = _byRule.GetValueOrDefault(finding.Rule) + 1;
            _bySeverity[finding.Severity] = _bySeverity.GetValueOrDefault(finding.Severity) + 1;
        }

        if (site.Lint is { } lint) AddChecked(site, lint);
        else _unread.Add(NameOf(site));
    }

    /// <summary>The verdict, of no more than one line for each thing to say.</summary>
    public IEnumerable<string> Lines()
    {
        yield return $"{VerdictWords.Number(_sites, "site")}: {Found}";
        if (ByRule() is { } rules) yield return rules;
        if (_unread.Count > 0) yield return $"{Timetables(_unread)} not checked because of errors: {Phrases.Names(_unread)}.";
        if (_cut.Count > 0) yield return $"{Timetables(_cut)} checked in part only, at the limit of work: {Phrases.Names(_cut)}.";
        if (GapLine.Of([.. _gaps.Select(WordsOf)]) is { } gaps) yield return gaps;
    }

    private void AddChecked(CheckedSite site, LintReport lint)
    {
        if (lint.IsCut) _cut.Add(NameOf(site));
        if (_until is null || lint.Horizon.Until < _until) _until = lint.Horizon.Until;
        foreach (var group in lint.NotChecked.GroupBy(gap => gap.Concern))
        {
            var (sites, remedies) = _gaps.GetValueOrDefault(group.Key, (0, []));
            remedies.UnionWith(group.Select(gap => gap.Remedy));
            _gaps[group.Key] = (sites + 1, remedies);
        }
    }

    private string Found
    {
        get
        {
            var where = _withFindings == 0 ? "" : $" in {(_withFindings == _sites ? "all" : Number(_withFindings))} of them";
            var tally = FindingSummary.Of(_bySeverity) + where + Verdict.NotCounted(_accepted, _inBaseline);
            return _withFindings == 0 && _cut.Count == 0 && _until is { } until
                ? $"{tally}. Each was checked to {VerdictWords.Date(until.PlusDays(-1))} or later."
                : $"{tally}.";
        }
    }

    /// <summary><c>By rule: syntax 2, unused 2, 18 more once each.</c></summary>
    private string? ByRule()
    {
        if (_byRule.Count == 0) return null;
        (Rule Rule, int Times)[] rules =
        [
            .. _byRule.Select(rule => (rule.Key, rule.Value)).OrderByDescending(rule => rule.Value)
                .ThenByDescending(rule => rule.Key.Severity).ThenBy(rule => rule.Key.Slug, StringComparer.Ordinal),
        ];
        var singles = rules.Count(rule => rule.Times == 1);
        var shown = singles > FewSingles && singles < rules.Length ? rules.Length - singles : rules.Length;
        while (shown > 1 && RuleLine(rules, shown).Length > GapLine.Columns) shown--;
        return RuleLine(rules, shown);
    }

    private static string RuleLine((Rule Rule, int Times)[] rules, int shown)
    {
        var line = $"By rule: {string.Join(", ", rules.Take(shown).Select(rule => $"{rule.Rule.Slug} {Number(rule.Times)}"))}";
        var more = rules.Length - shown;
        if (more == 0) return line + ".";
        return $"{line}, {Number(more)} more{(rules[shown].Times == 1 ? more == 1 ? " once" : " once each" : " rules")}.";
    }

    private static string Timetables(List<string> names) => $"{VerdictWords.Number(names.Count, "timetable")} {(names.Count == 1 ? "was" : "were")}";

    private string WordsOf(KeyValuePair<Concern, (int Sites, HashSet<string> Remedies)> gap) =>
        $"{GapGroup.WordOf(gap.Key)} in {(gap.Value.Sites == _sites ? "all" : Number(gap.Value.Sites))} " +
        $"({GapGroup.RemedyOf(gap.Value.Remedies.Order(StringComparer.Ordinal))})";

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>The name of its file, by which somebody finds it; what is not read may have no other.</summary>
    private static string NameOf(CheckedSite site) =>
        site.Path.EndsWith(".water", StringComparison.Ordinal) ? site.Path[..^".water".Length] : site.Path;
}
