using System.Collections.Immutable;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Linting.Fixes;

/// <summary>
/// Tries what findings propose: the change is made in the text, the site is read and checked again, and it stays a proposal only where it clears what it
/// is for and brings no error or warning of any rule. People apply it literally, and look at the rest of the site no more.
/// </summary>
/// <param name="site">The site as it was checked.</param>
/// <param name="check">Checks it again, read anew.</param>
internal sealed class FixTrial(CheckedSite site, Func<SiteReading, CheckedSite> check)
{
    /// <summary>Reading a character, in units of work.</summary>
    private const long WorkOfCharacter = 20;

    private readonly Tally _before = new(site);
    private long _work;

    /// <summary>The findings, with those proposals that may stay.</summary>
    public ImmutableArray<Finding> Findings() => [.. site.Findings.Select(Tried)];

    /// <summary>A safe fix is tried when it is applied.</summary>
    private Finding Tried(Finding finding)
    {
        if (site.Reading.Again is not { } again || finding.Fix is { IsSafe: true }) return finding;
        var first = finding.Fix is { Edits.IsEmpty: false } fix ? Judged(finding, fix, again) : finding;
        if (finding.OtherFix is not { } other || _work > Limits.FixTrialWork || !Keeps(other, finding, again)) return first;
        var words = WordsOf(first.Fix is null ? "" : first.Help, other.Title);
        return first.Fix is null ? first with { Fix = other, Help = words } : first with { Help = words };
    }

    private static string WordsOf(string help, string other) =>
        help.Length == 0 ? $"{char.ToUpperInvariant(other[0])}{other[1..]}." : $"{help.TrimEnd('.')}, or {other}.";

    private Finding Judged(Finding finding, Fix fix, Func<IReadOnlyDictionary<string, SourceText>, SiteReading> again)
    {
        if (_work > Limits.FixTrialWork) return finding with { Fix = null, Help = Words(finding, "not tried here: the site is too large") };
        var after = new Tally(Checked(fix, again));
        if (after.FirstNew(_before, finding.Rule, isChecked: site.Lint is not null) is { } brought)
            return finding with { Fix = null, Help = Words(finding, $"but that brings: {brought.Heading} [{brought.Rule.Slug}]") };
        return after.IsLess(_before, finding) ? finding : finding with { Fix = null, Help = Words(finding, "but that does not clear it") };
    }

    /// <summary>Whether another change clears it, brings nothing, and leaves as many runs as there were.</summary>
    private bool Keeps(Fix other, Finding finding, Func<IReadOnlyDictionary<string, SourceText>, SiteReading> again)
    {
        var changed = Checked(other, again);
        var after = new Tally(changed);
        return changed.Lint?.Runs == site.Lint?.Runs && after.IsLess(_before, finding)
            && after.FirstNew(_before, finding.Rule, isChecked: site.Lint is not null) is null;
    }

    private CheckedSite Checked(Fix fix, Func<IReadOnlyDictionary<string, SourceText>, SiteReading> again)
    {
        var after = check(again(FixSet.Apply([fix])));
        _work += (after.Lint?.Work ?? 0) + (WorkOfCharacter * site.Reading.Files.Sum(file => (long)file.Source.Text.Length));
        return after;
    }

    private static string Words(Finding finding, string more)
    {
        var words = finding.Help.Length > 0 ? finding.Help : finding.Fix!.Title;
        return $"{char.ToUpperInvariant(words[0])}{words[1..].TrimEnd('.')}; {more}.";
    }

    /// <summary>What is found in a site, by rule.</summary>
    private sealed class Tally(CheckedSite site)
    {
        private readonly ILookup<Rule, Finding> _byRule = site.Findings.ToLookup(finding => finding.Rule);

        /// <summary>
        /// The first error or warning of a rule of which there are more, or that happen more often, than before; null where there is none.
        /// </summary>
        /// <param name="before">The site as it was.</param>
        /// <param name="own">The rule whose finding is to be cleared.</param>
        /// <param name="isChecked">Whether the site was checked before; else only what reading finds counts.</param>
        public Finding? FirstNew(Tally before, Rule own, bool isChecked) => _byRule
            .Where(rule => rule.Key != own && (isChecked || rule.Key.Category == RuleCategory.Reading))
            .Select(rule => FirstNew([.. rule.Where(IsGrave)], [.. before._byRule[rule.Key].Where(IsGrave)]))
            .FirstOrDefault(finding => finding is not null);

        /// <summary>Whether there are fewer findings of its rule, or they happen less often, and neither is more than it was.</summary>
        public bool IsLess(Tally before, Finding finding)
        {
            Finding[] known = [.. before._byRule[finding.Rule]], left = [.. _byRule[finding.Rule]];
            var (fewer, rarer) = (left.Length.CompareTo(known.Length), Times(left).CompareTo(Times(known)));
            return fewer <= 0 && rarer <= 0 && fewer + rarer < 0;
        }

        private static Finding? FirstNew(Finding[] found, Finding[] known) => found.Length > known.Length || Times(found) > Times(known)
            ? found.FirstOrDefault(finding => !known.Any(other => other.Heading == finding.Heading)) ?? found[0]
            : null;

        private static bool IsGrave(Finding finding) => finding.Severity > Severity.Advice;

        private static long Times(IEnumerable<Finding> findings) => findings.Sum(finding => finding.Happens?.Times ?? 0);
    }
}
