using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Wording;

namespace WaterScript.Documents.Verdicts;

/// <summary>What the search for some rules alone comes to, in one site or several.</summary>
/// <param name="rules">The rules.</param>
internal sealed class RuleVerdict(ImmutableArray<Rule> rules)
{
    private readonly Dictionary<Severity, int> _bySeverity = [];
    private string _name = "";
    private int _sites, _inBaseline;

    /// <summary>A site with what some rules find, and nothing else; one that could not be checked keeps what keeps it from that.</summary>
    public static CheckedSite Only(CheckedSite site, ImmutableArray<Rule> rules)
    {
        ArgumentNullException.ThrowIfNull(site);
        return IsAnswered(site, rules) ? site with { Findings = [.. site.Findings.Where(finding => rules.Contains(finding.Rule))] } : site;
    }

    /// <summary>Whether a site was looked at as far as some rules need it.</summary>
    public static bool IsAnswered(CheckedSite site, ImmutableArray<Rule> rules)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Lint is not null || rules.All(rule => Diagnostics.Reading.ReadingRules.All.Contains(rule));
    }

    /// <summary>Counts a site.</summary>
    public void Add(CheckedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        _sites++;
        _name = site.Name;
        _inBaseline += site.InBaseline;
        foreach (var (severity, count) in site.Findings.CountBy(finding => finding.Severity))
            _bySeverity[severity] = _bySeverity.GetValueOrDefault(severity) + count;
    }

    /// <summary><c>Garden: 2 warnings by rule voltage-drop.</c></summary>
    public string Line()
    {
        var where = _sites == 1 ? _name : VerdictWords.Number(_sites, "site");
        var by = $"{(rules.Length == 1 ? "rule" : "rules")} {string.Join(", ", rules.Select(rule => rule.Slug))}";
        return $"{where}: {FindingSummary.Of(_bySeverity)} by {by}{Verdict.NotCounted(accepted: 0, _inBaseline)}.";
    }
}
