namespace WaterScript.Cli.Files;

/// <summary>Opens files for reading. What is none, such as a pipe that nobody writes, is refused at once and never waited for.</summary>
internal static class RegularFile
{
    /// <summary>Opens a file.</summary>
    /// <exception cref="IOException">It is no file, is not there, or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not read it.</exception>
    public static FileStream Open(string path)
    {
        Require(FileStatus.Of(path) ?? throw new FileNotFoundException());
        if (!OperatingSystem.IsLinux()) return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
        var handle = Posix.OpenWithoutWaiting(path);
        try
        {
            Require(Posix.Status(handle)); // It may be another than a moment ago.
            return new FileStream(handle, FileAccess.Read, bufferSize: 0);
        }
        catch
        {
            handle.Dispose();
            throw;
        }
    }

    /// <summary>Opens a file that the command line names.</summary>
    /// <exception cref="CommandException">It cannot be opened, and why.</exception>
    public static FileStream OpenNamed(string path, Surroundings surroundings)
    {
        try
        {
            return Open(surroundings.At(path));
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new CommandException(problem is FileNotFoundException ? $"no such file: {path}" : $"cannot read {path}: {IoWords.Of(problem)}");
        }
    }

    private static void Require(FileStatus status)
    {
        if (status.Kind != FileKind.Regular) throw new NotAFileException(status.Kind);
    }
}
