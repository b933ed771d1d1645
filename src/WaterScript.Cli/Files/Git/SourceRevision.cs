using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using WaterScript.Text;

namespace WaterScript.Cli.Files.Git;

/// <summary>
/// The revision in which sources stand as they were read. Contents are compared by their names in git, which are calculated here, so that nothing of the
/// repository's own settings is carried out.
/// </summary>
internal static class SourceRevision
{
    private const int MostBytes = 1 << 20;
    private const int Sha1Digits = 40;

    /// <summary>The full name of the revision that is checked out; null where a file is another there, or there is no repository or no git.</summary>
    /// <param name="files">The sources, the root file first.</param>
    /// <param name="surroundings">Where paths start from.</param>
    public static string? Of(ImmutableArray<SourceText> files, Surroundings surroundings)
    {
        if (files.IsEmpty || files[0].Path == SiteSource.Standard || !files.All(file => File.Exists(surroundings.At(file.Path)))) return null;
        var folder = Path.GetDirectoryName(RealPath.Of(files[0].Path, surroundings))!;
        if (!IsInRepository(folder)) return null;
        try
        {
            return Of(files, folder, GitProgram.Find(surroundings), surroundings);
        }
        catch (CommandException)
        {
            return null; // No git, or none that answers: the document says nothing of a revision.
        }
    }

    private static string? Of(ImmutableArray<SourceText> files, string folder, GitProgram git, Surroundings surroundings)
    {
        var where = git.Run(MostBytes, "-C", folder, "rev-parse", "--show-toplevel", "HEAD");
        if (!where.IsSuccess || Encoding.UTF8.GetString(where.Output).Split('\n') is not [var top, var revision, ..]) return null;
        var paths = files.ToDictionary(file => Path.GetRelativePath(top, RealPath.Of(file.Path, surroundings)).Replace(Path.DirectorySeparatorChar, '/'));
        var tree = git.Run(MostBytes, ["-C", folder, "ls-tree", "-z", "--full-tree", revision, "--", .. paths.Keys]);
        if (!tree.IsSuccess) return null;
        var blobs = Encoding.UTF8.GetString(tree.Output).Split('\0', StringSplitOptions.RemoveEmptyEntries).Select(line => line.Split('\t', 2))
            .Where(entry => entry.Length == 2).ToDictionary(entry => entry[1], entry => entry[0].Split(' ')[^1], StringComparer.Ordinal);
        return paths.All(path => blobs.TryGetValue(path.Key, out var blob) && Names(path.Value, blob.Length).Contains(blob)) ? revision : null;
    }

    private static bool IsInRepository(string folder)
    {
        for (var above = new DirectoryInfo(folder); above is not null; above = above.Parent)
        {
            if (Path.Exists(Path.Combine(above.FullName, ".git"))) return true;
        }

        return false;
    }

    /// <summary>What git calls a file of this text: as it is, or as it is kept where a checkout changes the ends of lines.</summary>
    private static IEnumerable<string> Names(SourceText file, int digits)
    {
        var bytes = FileContent.Of(file);
        yield return NameOf(bytes, digits);
        yield return NameOf(Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(bytes).Replace("\r\n", "\n", StringComparison.Ordinal)), digits);
    }

    private static string NameOf(byte[] content, int digits)
    {
        byte[] blob = [.. Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"blob {content.Length}\0")), .. content];
#pragma warning disable CA5350 // It is git's name for the content, and protects nothing here.
        return Convert.ToHexStringLower(digits == Sha1Digits ? SHA1.HashData(blob) : SHA256.HashData(blob));
#pragma warning restore CA5350
    }
}
