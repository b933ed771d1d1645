using NodaTime;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Text to model: parses the root file and all that it includes, and binds them.</summary>
internal static class SiteReader
{
    /// <summary>Reads a site.</summary>
    /// <param name="root">The root file.</param>
    /// <param name="rootPath">Its path relative to the root folder, as <see cref="ISourceReader.Read"/> takes it.</param>
    /// <param name="files">Where included files come from.</param>
    /// <param name="timeZones">Where time zones come from.</param>
    public static SiteReading Read(SourceText root, string rootPath, ISourceReader files, IDateTimeZoneProvider timeZones)
    {
        ArgumentNullException.ThrowIfNull(root);
        ArgumentNullException.ThrowIfNull(rootPath);
        return Read(root, rootPath, new FilesRead(files), timeZones);
    }

    private static SiteReading Read(SourceText root, string rootPath, FilesRead files, IDateTimeZoneProvider timeZones)
    {
        var findings = new FindingList();
        var trees = SourceSet.Read(root, rootPath, files, findings);
        var site = SiteBinder.Bind(trees, new Scope(findings, timeZones));
        findings.Sort([.. trees.Select(tree => tree.Source)]);
        return new SiteReading(site is null ? null : site with { TimeZoneData = TimeZoneVersion.Of(timeZones) }, trees, findings)
        {
            Again = texts => Read(texts.GetValueOrDefault(root.Path, root), rootPath, files.With(texts), timeZones),
        };
    }
}
