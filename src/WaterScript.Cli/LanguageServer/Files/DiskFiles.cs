using System.Collections.Concurrent;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>Files that no editor has open, each read again only when it has changed. Any number of threads may ask.</summary>
/// <param name="surroundings">Where paths start from.</param>
/// <param name="timeZones">Where time zones come from.</param>
internal sealed class DiskFiles(Surroundings surroundings, IDateTimeZoneProvider timeZones)
{
    private readonly ConcurrentDictionary<(string Root, string Path), Entry> _files = [];

    /// <summary>Where paths start from.</summary>
    public Surroundings Surroundings => surroundings;

    /// <summary>Where time zones come from.</summary>
    public IDateTimeZoneProvider TimeZones => timeZones;

    /// <summary>A file.</summary>
    /// <param name="root">The root folder.</param>
    /// <param name="path">Its path from there.</param>
    public Entry Read(string root, string path)
    {
        var stamp = StampOf(Path.Combine(root, path));
        if (_files.TryGetValue((root, path), out var known) && known.Stamp == stamp) return known;
        return _files[(root, path)] = Fresh(root, path, stamp);
    }

    private Entry Fresh(string root, string path, (DateTime, long) stamp)
    {
        var folder = new SourceFolder(root, surroundings);
        var text = folder.Read(path) is { } read ? Unmarked(read) : null;
        return new Entry(stamp, text, folder.Findings is [var finding, ..] ? finding : null, text is null && folder.LeadsOutside(path),
            text is null ? folder.WhyUnreadable(path) : null);
    }

    /// <summary>Editors do not count a byte-order mark of a file.</summary>
    private static SourceText Unmarked(SourceText text) => text.HasByteOrderMark ? SourceText.From(text.Path, text.Text) : text;

    private static (DateTime, long) StampOf(string path)
    {
        try
        {
            var file = new FileInfo(path);
            return file.Exists ? (file.LastWriteTimeUtc, file.Length) : default;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return default;
        }
    }

    /// <summary>What is known of a file.</summary>
    /// <param name="Stamp">When it was written, and its length.</param>
    /// <param name="Text">Its text; null where it cannot be read.</param>
    /// <param name="Finding">What was found about its bytes, or null.</param>
    /// <param name="LeadsOutside">Whether it leads out of the root folder.</param>
    /// <param name="WhyUnreadable">Why it cannot be read, or null.</param>
    internal sealed record Entry((DateTime, long) Stamp, SourceText? Text, Finding? Finding, bool LeadsOutside, string? WhyUnreadable);
}
