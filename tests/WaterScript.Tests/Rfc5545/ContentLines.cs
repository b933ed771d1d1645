using System.Text;

namespace WaterScript.Tests.Rfc5545;

/// <summary>Splits the bytes of a file into content lines (RFC 5545, 3.1).</summary>
internal static class ContentLines
{
    private const int MostOctets = 75;
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The lines, unfolded, each with the number of its first physical line.</summary>
    public static IReadOnlyList<(int Number, string Text)> Of(ReadOnlySpan<byte> file)
    {
        var lines = new List<(int Number, string Text)>();
        var number = 0;
        while (file.Length > 0)
        {
            number++;
            var end = file.IndexOf("\r\n"u8);
            if (end < 0) throw new Malformed(number, "does not end in CR LF");
            var text = Decode(number, file[..end]);
            if (text[0] is not (' ' or '\t'))
                lines.Add((number, text));
            else if (lines.Count > 0 && text.Length > 1)
                lines[^1] = (lines[^1].Number, lines[^1].Text + text[1..]);
            else
                throw new Malformed(number, "continues nothing, or with nothing");
            file = file[(end + 2)..];
        }

        return lines;
    }

    private static string Decode(int number, ReadOnlySpan<byte> line)
    {
        if (line.IsEmpty) throw new Malformed(number, "is empty");
        if (line.Length > MostOctets) throw new Malformed(number, $"has {line.Length} octets");
        if (line.ContainsAnyInRange((byte)0, (byte)8) || line.ContainsAnyInRange((byte)10, (byte)31) || line.Contains((byte)127)) throw new Malformed(number,
            "has a control character");
        try
        {
            // Each physical line by itself: a fold inside a character would leave halves on two lines.
            return Strict.GetString(line);
        }
        catch (DecoderFallbackException)
        {
            throw new Malformed(number, "is not UTF-8 by itself");
        }
    }
}
