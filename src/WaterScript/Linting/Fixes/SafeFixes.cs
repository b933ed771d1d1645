using WaterScript.Binding;
using WaterScript.Linting.Engine;

namespace WaterScript.Linting.Fixes;

/// <summary>How much of what is found while a site is read <c>check --fix</c> corrects.</summary>
internal static class SafeFixes
{
    private const char NotUtf8 = '\uFFFD';

    /// <summary>
    /// The number of its findings that a safe fix corrects. The fixes are tried in memory, as some may not be applied because of an error that they
    /// would give.
    /// </summary>
    public static int CountOf(CheckedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var safe = site.Findings.Count(finding => finding.Fix is { IsSafe: true });
        if (safe == 0 || site.Reading.Again is not { } again) return 0;
        if (site.Reading.Files.Any(file => file.Source.Path == "-" || file.Source.Text.Contains(NotUtf8, StringComparison.Ordinal))) return 0;
        var target = new FixTarget(texts => Unchecked(site, texts.IsEmpty ? site.Reading : again(texts)));
        var corrected = new FixApplier([target]).Fix(target);
        return Math.Max(0, safe - corrected.Untried - corrected.Refused.Length);
    }

    private static CheckedSite Unchecked(CheckedSite site, SiteReading reading) => new(site.Path, reading, Lint: null);
}
