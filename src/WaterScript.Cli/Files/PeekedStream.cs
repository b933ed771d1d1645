namespace WaterScript.Cli.Files;

/// <summary>Reads bytes that were read already, and then what follows them.</summary>
/// <param name="first">The bytes.</param>
/// <param name="rest">What follows; is closed with this.</param>
internal sealed class PeekedStream(byte[] first, Stream rest) : Stream
{
    private int _used;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        if (_used == first.Length) return rest.Read(buffer);
        var count = Math.Min(buffer.Length, first.Length - _used);
        first.AsSpan(_used, count).CopyTo(buffer);
        _used += count;
        return count;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing) rest.Dispose();
        base.Dispose(disposing);
    }
}
