using WaterScript.Cli.Files;

namespace WaterScript.Cli;

/// <summary>What the system said about a file, in plain words: its own messages are not kept in the published program.</summary>
internal static class IoWords
{
    /// <summary>POSIX ENOSPC, in the form of <see cref="Exception.HResult"/> on Unix, and ERROR_DISK_FULL on Windows.</summary>
    private static readonly int[] DiskFull = [28, unchecked((int)0x80070070)];

    /// <summary>A few words, without a capital or a full stop.</summary>
    public static string Of(Exception problem) => problem switch
    {
        OutputClosedException => "standard output is closed, so there is nowhere to write to",
        NotAFileException other => other.Words,
        FileNotFoundException => "there is no such file",
        DirectoryNotFoundException => "there is no such folder",
        UnauthorizedAccessException => "you are not allowed to",
        PathTooLongException => "the path is too long",
        _ when OperatingSystem.IsLinux() && problem.HResult == Posix.Loop => "its links lead in a circle",
        _ when !OperatingSystem.IsWindows() && problem.HResult == Posix.BrokenPipe => "nobody reads it",
        _ when DiskFull.Contains(problem.HResult) => "the disk is full",
        _ => $"the system reports an error ({problem.HResult})",
    };
}
