using System.Collections.Immutable;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Linting.Fixes;

/// <summary>How much of what is found while a site is read <c>check --fix</c> corrects.</summary>
internal static class SafeFixes
{
    private const char NotUtf8 = '\uFFFD';

    /// <summary>
    /// The number of its findings that a safe fix corrects. The fixes are tried in memory, as some may not be applied because of an error that they
    /// would give; what cannot be known here, such as a fix that reads another file, counts as not corrected.
    /// </summary>
    public static int CountOf(CheckedSite site, IDateTimeZoneProvider timeZones)
    {
        ArgumentNullException.ThrowIfNull(site);
        var safe = site.Findings.Count(finding => finding.Fix is { IsSafe: true });
        if (safe == 0 || site.Reading.Files.Any(file => file.Source.Path == "-" || file.Source.Text.Contains(NotUtf8, StringComparison.Ordinal))) return 0;
        var target = new FixTarget(texts => texts.IsEmpty ? Unchecked(site, site.Reading) : Unchecked(site, Read(site, texts, timeZones)));
        var corrected = new FixApplier([target]).Fix(target);
        return Math.Max(0, safe - corrected.Untried - corrected.Refused.Length);
    }

    private static CheckedSite Unchecked(CheckedSite site, SiteReading reading) => new(site.Path, reading, Lint: null);

    private static SiteReading Read(CheckedSite site, ImmutableDictionary<string, SourceText> texts, IDateTimeZoneProvider timeZones)
    {
        var files = new FilesRead(site.Reading, texts);
        var root = site.Reading.Files[0].Source;
        return SiteReader.Read(texts.GetValueOrDefault(root.Path, root), site.Path, files, timeZones);
    }

    /// <summary>The files that were read, some of them with another text.</summary>
    private sealed class FilesRead(SiteReading reading, ImmutableDictionary<string, SourceText> texts) : ISourceReader
    {
        public SourceText? Read(string path) => reading.Files.Select(file => file.Source).FirstOrDefault(source => source.Path == path) is { } source
            ? texts.GetValueOrDefault(source.Path, source)
            : null;
    }
}
