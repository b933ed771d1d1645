using System.Globalization;
using System.Runtime.InteropServices;

namespace WaterScript.Cli.Files;

/// <summary>Writes a file whole or not at all: beside it first, then in its place. Whatever stood there before stays until then.</summary>
internal static class AtomicFile
{
    private static readonly PosixSignal[] Endings = [PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGHUP];

    /// <summary>
    /// Writes a file. A link stays, and what it leads to is replaced, with the owner and the permissions of the old file. What is no file, such as a
    /// pipe, is written into.
    /// </summary>
    /// <param name="path">The file.</param>
    /// <param name="surroundings">Where paths start from.</param>
    /// <param name="write">Writes all of it.</param>
    /// <param name="read">What it held when it was read; where it holds something else by now, that stays. Null for whatever it holds.</param>
    /// <exception cref="CommandException">It cannot be written, or holds something else than was read.</exception>
    public static void Write(string path, Surroundings surroundings, Action<Stream> write, byte[]? read = null) => Attempt(path, () =>
    {
        var old = FileStatus.Of(surroundings.At(path));
        if (read is not null && old is null) throw FileContent.Changed(path);
        if (IsWrittenInto(path, old, surroundings)) WriteInto(surroundings.At(path), write);
        else Replace(path, TargetOf(path, old, surroundings), old, write, read);
    });

    /// <summary>Makes sure that a file could be written, before others that belong to it are; removes what killed runs have left of it.</summary>
    /// <exception cref="CommandException">It cannot be written, or holds something else than was read.</exception>
    public static void Prepare(string path, Surroundings surroundings, byte[] read) => Attempt(path, () =>
    {
        var old = FileStatus.Of(surroundings.At(path));
        if (IsWrittenInto(path, old, surroundings)) return;
        var target = TargetOf(path, old, surroundings);
        TemporaryFile.RemoveLeft(target);
        if (!FileContent.Is(target, read)) throw FileContent.Changed(path);
    });

    /// <summary>Removes what killed runs have left of a file that needs no writing.</summary>
    public static void RemoveLeft(string path, Surroundings surroundings) => TemporaryFile.RemoveLeft(RealPath.Of(path, surroundings));

    private static void Attempt(string path, Action work)
    {
        try
        {
            work();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new CommandException($"cannot write {path}: {IoWords.Of(problem)}");
        }
    }

    /// <summary>Whether it is no file that could be replaced: a pipe, a device, or something that this process has open.</summary>
    private static bool IsWrittenInto(string path, FileStatus? old, Surroundings surroundings) =>
        old is { Kind: FileKind.Pipe or FileKind.Device } || (old is not null && StandardDescriptor.Of(surroundings.Whole(path)) is not null);

    private static void WriteInto(string path, Action<Stream> write)
    {
        var isFile = FileStatus.Of(path) is { Kind: FileKind.Regular };
        using var stream = new FileStream(path, isFile ? FileMode.Append : FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
        write(stream);
    }

    /// <summary>The file to replace, which may be replaced.</summary>
    private static string TargetOf(string path, FileStatus? old, Surroundings surroundings)
    {
        var target = RealPath.Of(path, surroundings);
        if (old is { Kind: FileKind.Folder }) throw new CommandException($"cannot write {path}: it is a folder");
        if (old is { Kind: not FileKind.Regular }) throw new NotAFileException(old.Kind);
        if (!Directory.Exists(Path.GetDirectoryName(target)))
            throw new CommandException($"cannot write {path}: no such folder: {Path.GetDirectoryName(path)}");
        if (old is not null) RequireReplaceable(path, target, old);
        return target;
    }

    /// <summary>
    /// A new file in place of one that may not be written would go round its permissions, and one in place of a file with several names would leave
    /// the others as they are.
    /// </summary>
    private static void RequireReplaceable(string path, string target, FileStatus old)
    {
        var isProtected = OperatingSystem.IsLinux()
            ? old.IsWriteProtected || !Posix.IsWritable(target)
            : (File.GetAttributes(target) & FileAttributes.ReadOnly) != 0;
        if (isProtected) throw new CommandException($"cannot write {path}: it is write-protected");
        if (old.Names > 1)
            throw new CommandException(string.Create(
                CultureInfo.InvariantCulture, $"cannot write {path}: it has {old.Names} names (hard links), and only this one would change"));
    }

    private static void Replace(string path, string target, FileStatus? old, Action<Stream> write, byte[]? read)
    {
        TemporaryFile.RemoveLeft(target);
        using var stream = TemporaryFile.Create(target, isPrivate: old is not null);
        var beside = stream.Name;
        var signals = Array.ConvertAll(Endings, signal => PosixSignalRegistration.Create(signal, _ => File.Delete(beside)));
        try
        {
            if (old is not null) Keep(path, target, beside, old);
            write(stream);
            stream.Flush(flushToDisk: true);
            if (OperatingSystem.IsWindows()) stream.Dispose(); // Elsewhere it stays locked until it has its place, so that nobody takes it for left behind.
            if (read is null) File.Move(beside, target, overwrite: true);
            else FileContent.Replace(path, target, beside, read);
        }
        catch
        {
            File.Delete(beside);
            throw;
        }
        finally
        {
            foreach (var signal in signals) signal.Dispose();
        }
    }

    /// <summary>Gives the new file what the old one has: owner, group, permissions, attributes.</summary>
    private static void Keep(string path, string target, string beside, FileStatus old)
    {
        if (OperatingSystem.IsWindows()) return;
        if (OperatingSystem.IsLinux())
        {
            var made = FileStatus.OfLink(beside)!;
            if ((made.Owner, made.Group) != (old.Owner, old.Group) && !Posix.TryOwn(beside, old.Owner, old.Group))
                throw new CommandException($"cannot write {path}: its owner and group could not be kept; its owner may write it");
            if (!Posix.TryCopyAttributes(target, beside)) throw new CommandException($"cannot write {path}: its extended attributes could not be kept");
        }

        File.SetUnixFileMode(beside, old.Mode);
    }
}
