using System.Runtime.InteropServices;

namespace WaterScript.Cli.Files;

/// <summary>Writes a file whole or not at all: beside it first, then in its place. Whatever stood there before stays until then.</summary>
internal static class AtomicFile
{
    private static readonly PosixSignal[] Endings = [PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGHUP];

    /// <summary>Writes a file. A link stays, and what it leads to is replaced; the old file's permissions are kept.</summary>
    /// <exception cref="CommandException">It cannot be written.</exception>
    public static void Write(string path, Action<Stream> write)
    {
        try
        {
            var target = RealPath.Of(path);
            if (Directory.Exists(target)) throw new CommandException($"cannot write {path}: it is a folder");
            if (!Directory.Exists(Path.GetDirectoryName(target))) throw new CommandException($"cannot write {path}: there is no folder {Path.GetDirectoryName(path)}");
            if (IsDevice(target)) WriteStraight(target, write);
            else Replace(target, write);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new CommandException($"cannot write {path}: {IoWords.Of(problem)}");
        }
    }

    /// <summary>Whether it is no file that could be replaced, such as <c>/dev/null</c>.</summary>
    private static bool IsDevice(string target) => !OperatingSystem.IsWindows() && target.StartsWith("/dev/", StringComparison.Ordinal);

    private static void WriteStraight(string target, Action<Stream> write)
    {
        using var stream = new FileStream(target, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
        write(stream);
    }

    private static void Replace(string target, Action<Stream> write)
    {
        var beside = Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}.{Path.GetRandomFileName()}");
        var signals = Array.ConvertAll(Endings, signal => PosixSignalRegistration.Create(signal, _ => File.Delete(beside)));
        try
        {
            using (var stream = new FileStream(beside, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 0))
            {
                KeepPermissions(target, beside);
                write(stream);
                stream.Flush(flushToDisk: true);
            }

            File.Move(beside, target, overwrite: true);
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

    private static void KeepPermissions(string target, string beside)
    {
        if (!OperatingSystem.IsWindows() && File.Exists(target)) File.SetUnixFileMode(beside, File.GetUnixFileMode(target));
    }
}
