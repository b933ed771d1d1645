using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Checks;

/// <summary>
/// Applies the safe fixes of a site until none is left, and none that would give an error that was not there before. A fix
/// that lets more of a file be read may bring to light what could not be seen until then; it is left for a person too.
/// </summary>
public sealed class Mending
{
    private readonly Func<ImmutableDictionary<string, SourceText>, CheckedSite> _check;
    private readonly Dictionary<string, SourceText> _before = new(StringComparer.Ordinal);
    private readonly HashSet<Fix> _refused = [];
    private ImmutableDictionary<string, SourceText> _texts = ImmutableDictionary.Create<string, SourceText>(StringComparer.Ordinal);
    private CheckedSite _site;

    private Mending(Func<ImmutableDictionary<string, SourceText>, CheckedSite> check)
    {
        _check = check;
        _site = Before = check(_texts);
        foreach (var file in Before.Reading.Files) _before[file.Source.Path] = file.Source;
    }

    /// <summary>The site as it stands.</summary>
    public CheckedSite Before { get; }

    /// <summary>The site with its fixes.</summary>
    public CheckedSite After => _site;

    /// <summary>How many fixes are applied.</summary>
    public int Applied { get; private set; }

    /// <summary>Fixes that are not applied, because each would give an error that was not there.</summary>
    public IEnumerable<Fix> Refused => After.Findings.Select(finding => finding.Fix).OfType<Fix>().Where(_refused.Contains);

    /// <summary>The files that change, before and after, in order of their paths.</summary>
    public IEnumerable<(SourceText Before, SourceText After)> Changes => _texts
        .Where(text => text.Value.Text != _before[text.Key].Text)
        .OrderBy(text => text.Key, StringComparer.Ordinal)
        .Select(text => (_before[text.Key], text.Value));

    /// <summary>Mends a site.</summary>
    /// <param name="check">Checks it with other texts in place of some files, by the paths that findings show.</param>
    /// <param name="isAllowed">Whether its files may be changed at all.</param>
    public static Mending Of(Func<ImmutableDictionary<string, SourceText>, CheckedSite> check, bool isAllowed = true)
    {
        ArgumentNullException.ThrowIfNull(check);
        var mending = new Mending(check);
        for (var round = 0; isAllowed && round < Limits.FixRounds && mending.Round(); round++) { }
        return mending;
    }

    /// <summary>Applies what can be applied together.</summary>
    /// <returns>Whether something was.</returns>
    private bool Round()
    {
        var fixes = FixSet.Together(_site.Findings.Select(finding => finding.Fix).OfType<Fix>().Where(fix => fix.IsSafe && !_refused.Contains(fix)));
        var accepted = Accept([], fixes.AsSpan());
        if (accepted.IsEmpty) return false;
        _texts = TextsWith(accepted);
        _site = _check(_texts);
        Applied += accepted.Length;
        return true;
    }

    /// <summary>Those of some fixes that give no error along with the ones accepted already: all at once if they can be, else half by half.</summary>
    private ImmutableArray<Fix> Accept(ImmutableArray<Fix> accepted, ReadOnlySpan<Fix> fixes)
    {
        if (fixes.IsEmpty) return accepted;
        ImmutableArray<Fix> all = [.. accepted, .. fixes];
        if (!GivesError(_check(TextsWith(all)))) return all;
        if (fixes.Length == 1)
        {
            _refused.Add(fixes[0]);
            return accepted;
        }

        var half = fixes.Length / 2;
        return Accept(Accept(accepted, fixes[..half]), fixes[half..]);
    }

    private ImmutableDictionary<string, SourceText> TextsWith(ImmutableArray<Fix> fixes) => _texts.SetItems(FixSet.Apply(fixes));

    /// <summary>Whether there is an error that was not there; what a site does counts only where it was looked at before.</summary>
    private bool GivesError(CheckedSite after)
    {
        var known = Errors(_site.Findings).CountBy(error => error).ToDictionary();
        IEnumerable<Finding> found = _site.Lint is null ? after.Reading.Findings : after.Findings;
        return Errors(found).CountBy(error => error).Any(error => error.Value > known.GetValueOrDefault(error.Key));
    }

    private static IEnumerable<(Rule Rule, string Heading, string Path)> Errors(IEnumerable<Finding> findings) => findings
        .Where(finding => finding.Severity == Severity.Error)
        .Select(finding => (finding.Rule, finding.Heading, finding.Primary.Location.Source.Path));
}
