namespace WaterScript.Cli.Files;

/// <summary>What the system knows about a file without opening it.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Mode">Who may do what with it; nothing where the system has no such thing.</param>
/// <param name="Names">How many names it has: more than one are hard links.</param>
/// <param name="Owner">The number of its owner.</param>
/// <param name="Group">The number of its group.</param>
internal sealed record FileStatus(FileKind Kind, UnixFileMode Mode, uint Names, uint Owner, uint Group)
{
    private const UnixFileMode AnyWrite = UnixFileMode.UserWrite | UnixFileMode.GroupWrite | UnixFileMode.OtherWrite;

    /// <summary>Whether nobody may write it, which counts for an administrator too, whom the system would let.</summary>
    public bool IsWriteProtected => !OperatingSystem.IsWindows() && (Mode & AnyWrite) == 0;

    /// <summary>That of a path, every link followed; null where nothing is there.</summary>
    /// <exception cref="IOException">It cannot be known: links in a circle, a name that is too long.</exception>
    /// <exception cref="UnauthorizedAccessException">A folder on the way may not be looked into.</exception>
    public static FileStatus? Of(string path) => OperatingSystem.IsLinux() ? Posix.Status(path, followsLink: true) : Portable(path);

    /// <summary>That of a path, a link at its end not followed; null where nothing is there.</summary>
    /// <inheritdoc cref="Of"/>
    public static FileStatus? OfLink(string path) => OperatingSystem.IsLinux() ? Posix.Status(path, followsLink: false) : Portable(path);

    /// <summary>What .NET says on every system: it does not know pipes, sockets and devices, but for where they stand.</summary>
    private static FileStatus? Portable(string path)
    {
        var info = new FileInfo(path);
        var isFolder = Directory.Exists(path);
        if (!isFolder && !info.Exists) return null;
        var mode = OperatingSystem.IsWindows() ? UnixFileMode.None : info.UnixFileMode;
        var kind = isFolder ? FileKind.Folder : Path.GetFullPath(path).StartsWith("/dev/", StringComparison.Ordinal) ? FileKind.Device : FileKind.Regular;
        return new FileStatus(kind, mode, Names: 1, Owner: 0, Group: 0);
    }
}
