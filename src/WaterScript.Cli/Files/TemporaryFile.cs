using System.Security.Cryptography;
using System.Text;

namespace WaterScript.Cli.Files;

/// <summary>
/// The file in which a text is written before it takes the place of another: <c>.NAME.waterscript-RANDOM.tmp</c> beside it. Whoever writes
/// one holds its lock, which the system takes back when a process ends however it ends; so what has no holder was left by a kill.
/// </summary>
internal static class TemporaryFile
{
    private const string Mark = ".waterscript-";
    private const string Ending = ".tmp";
    private const int RandomBytes = 8;
    private const int Attempts = 20;

    /// <summary>With the mark, the number and the ending it is still a name that every file system takes.</summary>
    private const int LongestName = 200;

    /// <summary>Makes one for a target, open and locked.</summary>
    /// <param name="target">The file whose place it is to take.</param>
    /// <param name="isPrivate">Whether nobody else may look into it for now.</param>
    /// <exception cref="IOException">It cannot be made.</exception>
    public static FileStream Create(string target, bool isPrivate)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write, Share = FileShare.None, BufferSize = 0 };
        if (isPrivate && !OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        for (var attempt = 1; ; attempt++)
        {
            var path = NameFor(target);
            if (TryCreate(path, options, isLast: attempt == Attempts) is not { } stream) continue;
            if (File.Exists(path)) return stream;
            stream.Dispose(); // Somebody who cleans up took it for left behind, in the moment before it was locked.
        }
    }

    /// <summary>
    /// Removes what runs that were killed have left of a target. What somebody else still writes stays, and so does whatever is not named like this.
    /// </summary>
    public static void RemoveLeft(string target)
    {
        try
        {
            foreach (var path in Directory.EnumerateFiles(Path.GetDirectoryName(target)!))
            {
                if (IsFor(target, Path.GetFileName(path.AsSpan()))) RemoveUnlessWritten(path);
            }
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            // A folder that may be written and not listed: whatever was left stays, and the target is written all the same.
        }
    }

    private static FileStream? TryCreate(string path, FileStreamOptions options, bool isLast)
    {
        try
        {
            return new FileStream(path, options);
        }
        catch (IOException problem) when (!isLast && (File.Exists(path) || problem.HResult == Posix.WouldBlock))
        {
            return null;
        }
    }

    private static string NameFor(string target) =>
        Path.Combine(Path.GetDirectoryName(target)!, $"{StartOf(target)}{RandomNumberGenerator.GetHexString(2 * RandomBytes, lowercase: true)}{Ending}");

    private static string StartOf(string target)
    {
        var name = Path.GetFileName(target);
        var bytes = Encoding.UTF8.GetBytes(name);
        return $".{(bytes.Length <= LongestName ? name : Convert.ToHexStringLower(SHA256.HashData(bytes)))}{Mark}";
    }

    private static bool IsFor(string target, ReadOnlySpan<char> name)
    {
        var start = StartOf(target);
        if (name.Length != start.Length + (2 * RandomBytes) + Ending.Length) return false;
        return name.StartsWith(start, StringComparison.Ordinal) && name.EndsWith(Ending, StringComparison.Ordinal)
            && IsRandom(name[start.Length..^Ending.Length]);
    }

    private static bool IsRandom(ReadOnlySpan<char> number)
    {
        foreach (var digit in number)
        {
            if (!char.IsAsciiHexDigitLower(digit)) return false;
        }

        return true;
    }

    private static void RemoveUnlessWritten(string path)
    {
        try
        {
            if (FileStatus.OfLink(path) is not { Kind: FileKind.Regular }) return;
            using var held = new FileStream(path,
                new FileStreamOptions
                {
                    Mode = FileMode.Open,
                    Access = FileAccess.ReadWrite,
                    Share = FileShare.None,
                    BufferSize = 0,
                    Options = FileOptions.DeleteOnClose
                });
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            // Somebody writes it, or it is another user's.
        }
    }
}
