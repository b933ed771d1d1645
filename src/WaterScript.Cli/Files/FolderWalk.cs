using System.Collections.Immutable;
using System.IO.Enumeration;

namespace WaterScript.Cli.Files;

/// <summary>The <c>.water</c> files in a folder and below. Hidden folders and links are passed over, so that no link leads round in a circle.</summary>
/// <param name="Files">In order of their paths.</param>
/// <param name="Unreadable">What could not be looked into, each as a sentence without a full stop.</param>
internal sealed record FolderWalk(ImmutableArray<string> Files, ImmutableArray<string> Unreadable)
{
    private const string Ending = ".water";

    private static readonly EnumerationOptions Here = new()
    {
        IgnoreInaccessible = false,
        AttributesToSkip = FileAttributes.Hidden | FileAttributes.System | FileAttributes.ReparsePoint,
    };

    /// <summary>Walks through a folder. What stands in the way somewhere does not end it.</summary>
    /// <param name="folder">As it is written; the paths of the files begin with it.</param>
    /// <param name="surroundings">Where it lies.</param>
    public static FolderWalk Of(string folder, Surroundings surroundings)
    {
        var files = new List<string>();
        var unreadable = new List<string>();
        var pending = new Stack<string>([folder]);
        while (pending.TryPop(out var next))
        {
            try
            {
                foreach (var (name, isFolder) in EntriesOf(surroundings.At(next))) Sort(Path.Join(next, name), isFolder, files, pending, unreadable);
            }
            catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
            {
                unreadable.Add($"cannot look into {next}: {IoWords.Of(problem)}");
            }
        }

        return new FolderWalk([.. files.Order(StringComparer.Ordinal)], [.. unreadable.Order(StringComparer.Ordinal)]);
    }

    /// <summary>Whether a folder has the name of a source, which is a mistake: somebody means a file.</summary>
    public static bool IsNamedLikeAFile(string folder) => Path.TrimEndingDirectorySeparator(folder).EndsWith(Ending, StringComparison.Ordinal);

    private static void Sort(string path, bool isFolder, List<string> files, Stack<string> pending, List<string> unreadable)
    {
        if (!isFolder && IsNamedLikeAFile(path)) files.Add(path);
        else if (isFolder && IsNamedLikeAFile(path)) unreadable.Add($"cannot read {path}: it is a folder, not a file");
        else if (isFolder) pending.Push(path);
    }

    private static FileSystemEnumerable<(string Name, bool IsFolder)> EntriesOf(string folder) =>
        new(folder, (ref FileSystemEntry entry) => (entry.FileName.ToString(), entry.IsDirectory), Here);
}
