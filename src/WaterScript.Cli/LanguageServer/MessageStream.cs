using System.Buffers.Text;
using System.Globalization;
using System.Text;

namespace WaterScript.Cli.LanguageServer;

/// <summary>
/// Messages as the protocol has them in a stream: a header with the length, an empty line, then so many bytes of JSON. It is written by hand because the
/// formatter for JSON of StreamJsonRpc 2.26, the library for this, is marked as not safe for trimming and native code (IL2026, IL3050) where it is made by
/// its documented way, and it comes with nine further packages.
/// </summary>
/// <param name="input">What the client sends.</param>
/// <param name="output">What it reads.</param>
internal sealed class MessageStream(Stream input, Stream output)
{
    /// <summary>More than the longest file that is read can need, each of its letters escaped.</summary>
    private const int MostBytes = 64 << 20;

    private const int LongestLine = 4_096;
    private const int MostLines = 64;
    private static readonly byte[] LengthName = "Content-Length:"u8.ToArray();

    private readonly byte[] _buffer = new byte[1 << 16];
    private readonly Lock _lock = new();
    private int _at;
    private int _filled;

    /// <summary>The bytes of the next message; null where there is none any more.</summary>
    /// <exception cref="InvalidDataException">What comes is no message, so that nobody knows where the next one begins.</exception>
    /// <exception cref="EndOfStreamException">It ends in the middle of a message.</exception>
    public byte[]? Read()
    {
        int? length = null;
        for (var lines = 0; ReadLine() is { } line; lines++)
        {
            if (line.Length == 0 && length is { } complete) return ReadBody(complete);
            if (lines > MostLines || line.Length == 0) throw new InvalidDataException("a message without its length");
            if (Ascii.EqualsIgnoreCase(line.AsSpan(0, Math.Min(line.Length, LengthName.Length)), LengthName)) length = LengthOf(line);
        }

        return length is null ? null : throw new EndOfStreamException();
    }

    /// <summary>Writes a message, whole, whoever else writes at the same time.</summary>
    /// <exception cref="ReaderGoneException">The client is not there any more.</exception>
    public void Write(ReadOnlySpan<byte> body)
    {
        byte[] message = [.. Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"Content-Length: {body.Length}\r\n\r\n")), .. body];
        try
        {
            lock (_lock)
            {
                output.Write(message);
                output.Flush();
            }
        }
        catch (Exception problem) when (problem is IOException or ObjectDisposedException)
        {
            throw new ReaderGoneException();
        }
    }

    private byte[] ReadBody(int length)
    {
        var body = new byte[length];
        var held = Math.Min(length, _filled - _at);
        _buffer.AsSpan(_at, held).CopyTo(body);
        _at += held;
        input.ReadExactly(body.AsSpan(held));
        return body;
    }

    /// <summary>The next byte; -1 at the end of the stream.</summary>
    private int Next()
    {
        if (_at == _filled) (_at, _filled) = (0, input.Read(_buffer));
        return _filled == 0 ? -1 : _buffer[_at++];
    }

    private static int LengthOf(byte[] line)
    {
        var digits = line.AsSpan(LengthName.Length).Trim((byte)' ');
        return Utf8Parser.TryParse(digits, out int length, out var used) && used == digits.Length && length is >= 0 and <= MostBytes
            ? length
            : throw new InvalidDataException("a length that is none, or too much");
    }

    /// <summary>A line without its end; null at the end of the stream.</summary>
    private byte[]? ReadLine()
    {
        var line = new List<byte>();
        for (var next = Next(); next >= 0; next = Next())
        {
            if (next == '\n') return [.. line is [.., (byte)'\r'] ? line[..^1] : line];
            if (line.Count == LongestLine) throw new InvalidDataException("a header that does not end");
            line.Add((byte)next);
        }

        return line.Count == 0 ? null : throw new EndOfStreamException();
    }
}
