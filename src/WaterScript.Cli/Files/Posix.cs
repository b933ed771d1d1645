using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace WaterScript.Cli.Files;

/// <summary>
/// What .NET does not ask the system for: what kind of file a path leads to, opening without waiting for somebody at the other end,
/// owner and attributes, and whether whoever read the output is gone. Numbers are those of Linux on all its usual processors.
/// </summary>
internal static partial class Posix
{
    /// <summary>Links that lead in a circle, or too many of them (ELOOP).</summary>
    public const int Loop = 40;

    /// <summary>Nobody reads what is written (EPIPE), as on every POSIX system.</summary>
    public const int BrokenPipe = 32;

    /// <summary>Somebody else has the lock of a file (EWOULDBLOCK).</summary>
    public const int WouldBlock = 11;

    private const int NoPermission = 1, NoEntry = 2, Interrupted = 4, BadDescriptor = 9, NoAccess = 13, NoFolder = 20, NameTooLong = 36, NoAttributes = 95;
    private const int HereFolder = -100, EmptyPath = 0x1000, NoFollow = 0x100;
    private const uint BasicFields = 0x7ff;
    private const int ReadOnly = 0, NoControllingTerminal = 0x100, NonBlocking = 0x800, CloseOnExec = 0x80000;
    private const int MayWrite = 2;
    private const uint Exchange = 2;
    private const int PermissionBits = 0xfff, KindBits = 0xf000;

    /// <summary>The status of a path; null where nothing is there.</summary>
    public static FileStatus? Status(string path, bool followsLink)
    {
        if (statx(HereFolder, path, followsLink ? 0 : NoFollow, BasicFields, out var answer) == 0) return StatusOf(answer);
        return Marshal.GetLastPInvokeError() is NoEntry or NoFolder ? null : throw Problem(Marshal.GetLastPInvokeError());
    }

    /// <summary>The status of an open file.</summary>
    public static FileStatus Status(SafeFileHandle file) =>
        statx((int)file.DangerousGetHandle(), "", EmptyPath, BasicFields, out var answer) == 0
            ? StatusOf(answer)
            : throw Problem(Marshal.GetLastPInvokeError());

    /// <summary>Opens for reading, and does not wait even where it turns out to be a pipe that nobody writes.</summary>
    public static SafeFileHandle OpenWithoutWaiting(string path)
    {
        var descriptor = open(path, ReadOnly | NonBlocking | NoControllingTerminal | CloseOnExec);
        return descriptor >= 0 ? new SafeFileHandle(descriptor, ownsHandle: true) : throw Problem(Marshal.GetLastPInvokeError());
    }

    /// <summary>Whether the system would let this user write a file that is there.</summary>
    public static bool IsWritable(string path) => access(path, MayWrite) == 0;

    /// <summary>Has two files change places in one step; false where the file system cannot, or one of them is gone.</summary>
    public static bool TryExchange(string first, string second)
    {
        try
        {
            return renameat2(HereFolder, first, HereFolder, second, Exchange) == 0;
        }
        catch (EntryPointNotFoundException)
        {
            return false; // A C library that is older than the call.
        }
    }

    /// <summary>Gives a file an owner and a group; false where this user may not.</summary>
    public static bool TryOwn(string path, uint owner, uint group) => chown(path, owner, group) == 0;

    /// <summary>Copies the extended attributes of a file, access lists among them, as far as they are a user's business.</summary>
    /// <returns>Whether all of them could be copied.</returns>
    public static bool TryCopyAttributes(string from, string to)
    {
        foreach (var name in AttributesOf(from))
        {
            if (!TryCopyAttribute(from, to, name) && !name.StartsWith("security.", StringComparison.Ordinal)) return false;
        }

        return true;
    }

    /// <summary>Writes to a descriptor until all of it is written.</summary>
    /// <exception cref="IOException">It cannot be written; the <see cref="Exception.HResult"/> says why.</exception>
    public static void Write(int descriptor, ReadOnlySpan<byte> bytes)
    {
        while (!bytes.IsEmpty)
        {
            var written = (int)write(descriptor, in MemoryMarshal.GetReference(bytes), (nuint)bytes.Length);
            if (written >= 0) bytes = bytes[written..];
            else if (Marshal.GetLastPInvokeError() == WouldBlock) Thread.Sleep(1);
            else if (Marshal.GetLastPInvokeError() != Interrupted) throw Problem(Marshal.GetLastPInvokeError());
        }
    }

    private static FileStatus StatusOf(StatxAnswer answer) =>
        new(KindOf(answer.Mode & KindBits), (UnixFileMode)(answer.Mode & PermissionBits), answer.Names, answer.Owner, answer.Group);

    private static FileKind KindOf(int bits) => bits switch
    {
        0x1000 => FileKind.Pipe,
        0x2000 => FileKind.Device,
        0x4000 => FileKind.Folder,
        0x6000 => FileKind.Disk,
        0xa000 => FileKind.Link,
        0xc000 => FileKind.Socket,
        _ => FileKind.Regular,
    };

    private static string[] AttributesOf(string path)
    {
        var none = (byte)0;
        var length = listxattr(path, ref none, 0);
        if (length <= 0) return [];
        var names = new byte[(int)length];
        length = listxattr(path, ref names[0], (nuint)names.Length);
        return length <= 0 ? [] : Encoding.UTF8.GetString(names, 0, (int)length).Split('\0', StringSplitOptions.RemoveEmptyEntries);
    }

    private static bool TryCopyAttribute(string from, string to, string name)
    {
        var value = new byte[1 << 16]; // No file system of Linux takes a longer one.
        var length = getxattr(from, name, ref value[0], (nuint)value.Length);
        return length < 0 || setxattr(to, name, ref value[0], (nuint)length, 0) == 0 || Marshal.GetLastPInvokeError() == NoAttributes;
    }

    private static Exception Problem(int error) => error switch
    {
        NoEntry => new FileNotFoundException(),
        NoFolder => new DirectoryNotFoundException(),
        NameTooLong => new PathTooLongException(),
        NoAccess or NoPermission or BadDescriptor => new UnauthorizedAccessException(),
        _ => new IOException(null, error),
    };

#pragma warning disable IDE1006, SA1300 // The names are the system's.
    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int statx(int folder, string path, int flags, uint fields, out StatxAnswer answer);

    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int open(string path, int flags);

    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int access(string path, int mode);

    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int renameat2(int oldFolder, string oldPath, int newFolder, string newPath, uint flags);

    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int chown(string path, uint owner, uint group);

    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial nint listxattr(string path, ref byte names, nuint size);

    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial nint getxattr(string path, string name, ref byte value, nuint size);

    [LibraryImport("libc", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int setxattr(string path, string name, ref byte value, nuint size, int flags);

    [LibraryImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial nint write(int descriptor, in byte bytes, nuint count);
#pragma warning restore IDE1006, SA1300

    /// <summary>The fields of <c>struct statx</c> that are asked for; it is laid out alike on every processor (statx(2)).</summary>
    [StructLayout(LayoutKind.Explicit, Size = 256)]
    private struct StatxAnswer
    {
        [FieldOffset(16)]
        public uint Names;

        [FieldOffset(20)]
        public uint Owner;

        [FieldOffset(24)]
        public uint Group;

        [FieldOffset(28)]
        public ushort Mode;
    }
}
