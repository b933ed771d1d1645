namespace WaterScript.Cli;

/// <summary>Standard output or error that the caller has closed: what needs it fails when it writes, and what does not goes on.</summary>
internal sealed class ClosedOutput : Stream
{
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

    /// <summary>What the system opens, or this where there is nothing to open.</summary>
    public static Stream Or(Func<Stream> open)
    {
        try
        {
            return open();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return new ClosedOutput();
        }
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
    public override void Write(byte[] buffer, int offset, int count) => throw new OutputClosedException();
}

/// <summary>There is nowhere to write to.</summary>
internal sealed class OutputClosedException : IOException;
