using System.Buffers;
using System.Text;
using WaterScript.Text;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// The lines of an iCalendar stream (RFC 5545, 3.1): they end with CRLF and have at most 75 octets; what is longer goes on in the
/// next line after a space, never within a character. They are our own because Ical.Net takes 2.0 s and 330 MB for 35,040 events that are
/// expanded and written here in 0.15 s, all in, and its serializer needs reflection that a trimmed program does not have (IL2072, IL2075, IL2087).
/// </summary>
internal sealed class ContentLines
{
    private const int LongestLine = 75;

    private readonly ArrayBufferWriter<byte> _written = new();
    private readonly ArrayBufferWriter<byte> _line = new();

    /// <summary>What has been written since <see cref="Clear"/>.</summary>
    public ReadOnlySpan<byte> Written => _written.WrittenSpan;

    /// <summary>Forgets what has been written.</summary>
    public void Clear() => _written.ResetWrittenCount();

    /// <summary>A line of ASCII that is known to be right as it is: <c>BEGIN:VEVENT</c>.</summary>
    public void Line(string line)
    {
        Encoding.UTF8.GetBytes(line, _line);
        End();
    }

    /// <summary>Whole lines that are right as they are, once what they leave open is filled in.</summary>
    /// <returns>Where they stand now, until more is written.</returns>
    public Span<byte> Lines(ReadOnlySpan<byte> lines)
    {
        var written = _written.GetSpan(lines.Length)[..lines.Length];
        lines.CopyTo(written);
        _written.Advance(lines.Length);
        return written;
    }

    /// <summary>A property with a text.</summary>
    public void Text(string name, string value)
    {
        Encoding.UTF8.GetBytes(name, _line);
        _line.Write(":"u8);
        Escape(value);
        End();
    }

    /// <summary>A property with a list of texts.</summary>
    public void Texts(string name, IEnumerable<string> values)
    {
        Encoding.UTF8.GetBytes(name, _line);
        var separator = ":"u8;
        foreach (var value in values)
        {
            _line.Write(separator);
            Escape(value);
            separator = ","u8;
        }

        End();
    }

    /// <summary>
    /// Writes a text so that nothing of it can end it (RFC 5545, 3.3.11). What a reader might take for the end of a line is written
    /// as one; other control characters, which a text may not hold, and what turns the direction of reading or hides as U+FFFD.
    /// </summary>
    private void Escape(string value)
    {
        var isAfterReturn = false;
        foreach (var rune in value.EnumerateRunes())
        {
            if (isAfterReturn && rune.Value == '\n')
            {
                isAfterReturn = false;
                continue;
            }

            isAfterReturn = rune.Value == '\r';
            switch (rune.Value)
            {
                case '\\' or ';' or ',':
                    _line.Write([(byte)'\\', (byte)rune.Value]);
                    break;
                case '\n' or '\r' or 0x85 or 0x2028 or 0x2029:
                    _line.Write("\\n"u8);
                    break;
                default:
                    Put((Rune.IsControl(rune) && rune.Value != '\t') || HiddenCharacter.Misleads(rune) ? Rune.ReplacementChar : rune);
                    break;
            }
        }
    }

    private void Put(Rune rune) => _line.Advance(rune.EncodeToUtf8(_line.GetSpan(4)));

    private void End()
    {
        var rest = _line.WrittenSpan;
        var room = LongestLine;
        while (rest.Length > room)
        {
            var length = room;
            while (IsInsideCharacter(rest[length])) length--;
            Fold(rest[..length]);
            rest = rest[length..];
            room = LongestLine - 1;
            if (CommandIn(rest) is not ({ } first and < LongestLine - 2)) continue;
            Fold(rest[..(first + 1)]);
            rest = rest[(first + 1)..];
        }

        _written.Write(rest);
        _written.Write("\r\n"u8);
        _line.ResetWrittenCount();
    }

    private void Fold(ReadOnlySpan<byte> line)
    {
        _written.Write(line);
        _written.Write("\r\n "u8);
    }

    /// <summary>
    /// Where a line that goes on begins with what a build service takes for a command in its log, <c>::</c> or <c>##[</c> after any spaces; such a line is
    /// folded once more, within that.
    /// </summary>
    private static int? CommandIn(ReadOnlySpan<byte> line)
    {
        var first = line.IndexOfAnyExcept((byte)' ', (byte)'\t');
        return first >= 0 && (line[first..].StartsWith("::"u8) || line[first..].StartsWith("##["u8)) ? first : null;
    }

    /// <summary>Whether a byte of UTF-8 continues a character.</summary>
    private static bool IsInsideCharacter(byte octet) => (octet & 0xC0) == 0x80;
}
