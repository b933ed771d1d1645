using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Linting.Fixes;

/// <summary>
/// Applies the safe fixes of sites until none is left, and none that would give an error that was not there before; of other sites that
/// read the same file, no warning either. A fix that lets more of a file be read may bring to light what could not be seen until then; it
/// is left for a person too.
/// </summary>
/// <param name="sites">All of them; files that they share are fixed for all.</param>
internal sealed class FixApplier(ImmutableArray<FixTarget> sites)
{
    private readonly Dictionary<string, SourceText> _before = new(StringComparer.Ordinal);
    private readonly Dictionary<Fix, CheckedSite> _refused = [];
    private readonly Dictionary<Fix, string> _needed = [];
    private ImmutableDictionary<string, SourceText> _texts = FixTarget.NoTexts;
    private long _work, _mostWork;

    /// <summary>The files that have changed so far, before and after, in order of their paths.</summary>
    public ImmutableArray<(SourceText Before, SourceText After)> Changes =>
    [
        .. _texts.Where(text => text.Value.Text != _before[text.Key].Text).OrderBy(text => text.Key, StringComparer.Ordinal)
            .Select(text => (_before[text.Key], text.Value)),
    ];

    /// <summary>Fixes one of the sites.</summary>
    public FixedSite Fix(FixTarget site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var before = site.Settle(_texts);
        foreach (var file in before.Reading.Files) _before.TryAdd(file.Source.Path, file.Source);
        var (texts, applied) = (_texts, new List<Fix>());
        (_work, _mostWork) = (0, Limits.FixChecks * Limits.CheckWorkOf(before.Reading.Files.Sum(file => (long)file.Source.Text.Length)));
        for (var round = 0; site.IsAllowed && round < Limits.FixRounds && Round(site) is { Length: > 0 } more; round++) applied.AddRange(more);
        var after = site.Settle(_texts);
        ImmutableArray<Fix> left = [.. after.Findings.Select(finding => finding.Fix).OfType<Fix>()];
        return new FixedSite(before, after, [.. applied])
        {
            Untried = site.IsAllowed ? left.Count(IsToTry) : 0,
            Changed = [.. _texts.Values.Where(text => texts.GetValueOrDefault(text.Path, _before[text.Path]).Text != text.Text)
                .OrderBy(text => text.Path, StringComparer.Ordinal)],
            Needed = [.. left.Where(_needed.ContainsKey).Select(fix => (fix, _needed[fix]))],
            Refused = [.. left.Where(_refused.ContainsKey).Select(fix => (fix, _refused[fix].Path))],
        };
    }

    /// <summary>Applies what can be applied together.</summary>
    /// <returns>Those that were.</returns>
    private ImmutableArray<Fix> Round(FixTarget site)
    {
        var findings = site.Settle(_texts).Findings;
        foreach (var finding in findings.Where(finding => finding.Rule.IsAboutUse && finding.Fix is not null))
        {
            if (PathOfUser(site, finding) is { } path) _needed[finding.Fix!] = path;
        }

        var fixes = FixSet.Together(findings.Select(finding => finding.Fix).OfType<Fix>().Where(IsToTry));
        var accepted = Accept(site, [], fixes.AsSpan());
        if (!accepted.IsEmpty) _texts = TextsWith(accepted);
        return accepted;
    }

    private bool IsToTry(Fix fix) => fix.IsSafe && !_refused.ContainsKey(fix) && !_needed.ContainsKey(fix);

    /// <summary>Another site that reads the same file and uses what one does not; one with an error, which was not checked, may use anything.</summary>
    private string? PathOfUser(FixTarget corrected, Finding unused)
    {
        var place = unused.Primary.Location;
        return sites.Where(site => site != corrected).Select(site => site.Settle(_texts))
            .FirstOrDefault(site => site.Reading.Files.Any(file => file.Source.Path == place.Source.Path)
                && !site.Findings.Any(found => found.Rule == unused.Rule && found.Primary.Location.Source.Path == place.Source.Path
                    && found.Primary.Location.Span == place.Span))?.Path;
    }

    /// <summary>Those of some fixes that do no harm along with the ones accepted already: all at once if they can be, else half by half.</summary>
    private ImmutableArray<Fix> Accept(FixTarget site, ImmutableArray<Fix> accepted, ReadOnlySpan<Fix> fixes)
    {
        if (fixes.IsEmpty || _work > _mostWork) return accepted;
        ImmutableArray<Fix> all = [.. accepted, .. fixes];
        if (Harmed(site, TextsWith(all)) is not { } harmed) return all;
        if (fixes.Length == 1)
        {
            _refused[fixes[0]] = harmed;
            return accepted;
        }

        var half = fixes.Length / 2;
        return Accept(site, Accept(site, accepted, fixes[..half]), fixes[half..]);
    }

    private ImmutableDictionary<string, SourceText> TextsWith(ImmutableArray<Fix> fixes) => _texts.SetItems(FixSet.Apply(fixes));

    /// <summary>A site that other texts make worse: the one that is fixed, else one that reads the same file; or null.</summary>
    private CheckedSite? Harmed(FixTarget corrected, ImmutableDictionary<string, SourceText> texts) => sites
        .OrderBy(site => site == corrected ? 0 : 1)
        .FirstOrDefault(site => IsWorse(site.Settle(_texts), Tried(site, texts), site == corrected ? Severity.Error : Severity.Warning))?.Settle(_texts);

    private CheckedSite Tried(FixTarget site, ImmutableDictionary<string, SourceText> texts)
    {
        var tried = site.With(texts);
        _work += tried.Lint?.Work ?? 0;
        return tried;
    }

    /// <summary>Whether something of a severity is found that was not; what a site does counts only where it was looked at before.</summary>
    private static bool IsWorse(CheckedSite before, CheckedSite after, Severity least)
    {
        if (before == after) return false;
        var known = Grave(before.Findings, least).CountBy(found => found).ToDictionary();
        IEnumerable<Finding> found = before.Lint is null ? after.Reading.Findings : after.Findings;
        return Grave(found, least).CountBy(found => found).Any(found => found.Value > known.GetValueOrDefault(found.Key));
    }

    private static IEnumerable<(Rule Rule, string Heading, string Path)> Grave(IEnumerable<Finding> findings, Severity least) => findings
        .Where(finding => finding.Severity >= least)
        .Select(finding => (finding.Rule, finding.Heading, finding.Primary.Location.Source.Path));
}

/// <summary>What fixing a site came to.</summary>
/// <param name="Before">The site as it stood.</param>
/// <param name="After">The site with its fixes.</param>
/// <param name="Applied">The fixes that are applied, one round after the other; places are those of the text that the round began with.</param>
internal sealed record FixedSite(CheckedSite Before, CheckedSite After, ImmutableArray<Fix> Applied)
{
    /// <summary>How many safe fixes were not tried, since that would have been more work than it may be.</summary>
    public required int Untried { get; init; }

    /// <summary>The new texts of the files that it changed, in order of their paths.</summary>
    public required ImmutableArray<SourceText> Changed { get; init; }

    /// <summary>Fixes that take away what nothing uses in this site, but another site does, and the path of that one.</summary>
    public required ImmutableArray<(Fix Fix, string Path)> Needed { get; init; }

    /// <summary>Fixes that are not applied, because of an error that each would give, and the path of the site that would have it.</summary>
    public required ImmutableArray<(Fix Fix, string Path)> Refused { get; init; }
}
