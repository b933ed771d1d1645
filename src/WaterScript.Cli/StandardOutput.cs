using WaterScript.Cli.Files;

namespace WaterScript.Cli;

/// <summary>
/// Standard output on systems with pipes. The stream of .NET goes on in silence when nobody reads any more, and a long timetable would be
/// calculated to its end for nobody; this one ends the work.
/// </summary>
internal sealed class StandardOutput : Stream
{
    private const int Descriptor = 1;

    /// <inheritdoc/>
    public override bool CanRead => false;

    /// <inheritdoc/>
    public override bool CanSeek => false;

    /// <inheritdoc/>
    public override bool CanWrite => true;

    /// <inheritdoc/>
    public override long Length => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    /// <summary>That of this process.</summary>
    /// <exception cref="IOException">The caller has closed it.</exception>
    public static Stream Open()
    {
        var console = Console.OpenStandardOutput();
        return OperatingSystem.IsWindows() ? console : new StandardOutput();
    }

    /// <inheritdoc/>
    public override void Flush() { }

    /// <inheritdoc/>
    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void SetLength(long value) => throw new NotSupportedException();

    /// <inheritdoc/>
    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    /// <inheritdoc/>
    public override void Write(ReadOnlySpan<byte> buffer)
    {
        try
        {
            Posix.Write(Descriptor, buffer);
        }
        catch (IOException problem) when (problem.HResult == Posix.BrokenPipe)
        {
            throw new ReaderGoneException();
        }
    }
}
