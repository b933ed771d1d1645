using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Documents.Timetables;

/// <summary>What a document was compiled from, so that a list in a device can be traced to it.</summary>
/// <param name="Root">The root file, as findings show it; empty where there is none.</param>
/// <param name="Files">All files that were read, the root file first.</param>
/// <param name="Revision">The revision that all of them stand in unchanged; null where there is none, or nobody knows.</param>
internal sealed record Provenance(string Root, ImmutableArray<SourceText> Files, string? Revision)
{
    /// <summary>That of a site that comes from no files.</summary>
    public static Provenance None { get; } = new("", [], null);

    /// <summary>
    /// The SHA-256 of the sources: of the hashes of the files, each on a line, in the order in which they are read. Of a file, ends of lines and a byte-order
    /// mark are no part, which some systems change. Null where there are no files.
    /// </summary>
    public string? SourcesHash => Files.IsEmpty ? null : HashOf(string.Concat(Files.Select(file => HashOf(file.Text.ReplaceLineEndings("\n")) + "\n")));

    /// <summary>The path of a file from the folder of the root file.</summary>
    public string PathOf(SourceText file)
    {
        ArgumentNullException.ThrowIfNull(file);
        string[] from = [.. Root.Split('/')[..^1]], to = file.Path.Split('/');
        if (file.Path.StartsWith('/') != Root.StartsWith('/')) return file.Path;
        var same = 0;
        while (same < from.Length && same < to.Length - 1 && from[same] == to[same]) same++;
        return from.AsSpan(same).Contains("..") ? file.Path : string.Join('/', [.. Enumerable.Repeat("..", from.Length - same), .. to[same..]]);
    }

    private static string HashOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}

/// <summary>
/// What the closing row of a list says of where it comes from. It is no part of the hash: the same list from another revision is the same list.
/// </summary>
/// <param name="Sources">The hash of the sources; empty where it is not known.</param>
/// <param name="Revision">The revision; empty where there is none.</param>
/// <param name="TimeZoneData">The version of the time-zone data.</param>
/// <param name="Site">The hash of what was compiled.</param>
internal sealed record ClosingNotes(string Sources, string Revision, string TimeZoneData, string Site)
{
    /// <summary>Those of a document.</summary>
    public static ClosingNotes Of(Site site, Provenance provenance)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(provenance);
        return new ClosingNotes(provenance.SourcesHash ?? "", provenance.Revision ?? "", site.TimeZoneData, SiteHash.Of(site));
    }
}
