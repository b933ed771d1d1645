using System.Text;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>What a file held when it was read, so that an edit which somebody else has saved since is never replaced.</summary>
internal static class FileContent
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>The bytes of a text, all of whose letters could be decoded.</summary>
    public static byte[] Of(SourceText text)
    {
        ArgumentNullException.ThrowIfNull(text);
        byte[] mark = text.HasByteOrderMark ? Encoding.UTF8.Preamble.ToArray() : [];
        return [.. mark, .. Utf8.GetBytes(text.Text)];
    }

    /// <summary>Writes a text over the one that was read, unless the file holds something else by now.</summary>
    /// <exception cref="CommandException">It does, or cannot be written.</exception>
    public static void Write(string path, SourceText read, SourceText text, Surroundings surroundings) =>
        AtomicFile.Write(path, surroundings, stream => stream.Write(Of(text)), Of(read));

    /// <summary>Whether a file holds some bytes, and no others.</summary>
    public static bool Is(string path, byte[] content)
    {
        if (FileStatus.Of(path) is not { Kind: FileKind.Regular }) return false;
        using var stream = RegularFile.Open(path);
        var found = new byte[content.Length + 1];
        return stream.ReadAtLeast(found, found.Length, throwOnEndOfStream: false) == content.Length && content.AsSpan().SequenceEqual(found.AsSpan(..^1));
    }

    /// <summary>
    /// Puts a file in the place of another that still holds what was read. Where the system can exchange two files, the old one is looked at when nobody
    /// finds it under its name any more, so that no moment is left in which an edit could be saved and lost; elsewhere it is looked at just before.
    /// </summary>
    /// <exception cref="CommandException">It holds something else; it is as it was.</exception>
    public static void Replace(string path, string target, string beside, byte[] read)
    {
        if (!Is(target, read)) throw Changed(path);
        if (!OperatingSystem.IsLinux() || !Posix.TryExchange(beside, target))
        {
            File.Move(beside, target, overwrite: true);
            return;
        }

        if (!Is(beside, read))
        {
            Posix.TryExchange(beside, target);
            throw Changed(path);
        }

        File.Delete(beside);
    }

    /// <summary>What is said of a file that has changed since.</summary>
    public static CommandException Changed(string path) =>
        new($"{path} was changed by another program after it was read; it was left as it is, so run the command again");
}
