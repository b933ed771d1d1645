using System.Text;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;

namespace WaterScript.Cli.Files;

/// <summary>Bytes to text. A site is written in UTF-8, and what is not is shown at its place.</summary>
internal static class TextDecoder
{
    private static readonly UTF8Encoding Lenient = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: false);

    /// <summary>Reads a file's bytes.</summary>
    /// <param name="path">As findings show it.</param>
    /// <param name="bytes">All of it.</param>
    /// <returns>The text, with U+FFFD where bytes are none, and what was found; a file that is no text at all gives an empty text.</returns>
    public static (SourceText Text, Finding? Finding) Decode(string path, ReadOnlySpan<byte> bytes)
    {
        if (IsNoText(bytes))
        {
            var empty = SourceText.From(path, "");
            return (empty, Report(empty, 0, 0, "this is not text in UTF-8") with { Help = HelpOf(bytes) });
        }

        var text = SourceText.From(path, Lenient.GetString(bytes));
        var valid = ValidLength(bytes);
        if (valid == bytes.Length) return (text, null);
        var place = Lenient.GetCharCount(bytes[..valid]) - (text.HasByteOrderMark ? 1 : 0);
        return (text, Report(text, place, 1, "this letter is not written in UTF-8")
            with
        { Help = "Save the file as UTF-8, then look at its letters with accents." });
    }

    private static string HelpOf(ReadOnlySpan<byte> bytes) => IsUtf16(bytes)
        ? "Save it as UTF-8 where it was written; it is UTF-16, which some programs call Unicode."
        : "Save it as UTF-8, in the program that it comes from.";

    private static bool IsUtf16(ReadOnlySpan<byte> bytes) => bytes.StartsWith<byte>([0xFF, 0xFE]) || bytes.StartsWith<byte>([0xFE, 0xFF]);

    /// <summary>Whether it is a picture, an archive, or text in UTF-16 or UTF-32: text in UTF-8 has no zero bytes.</summary>
    private static bool IsNoText(ReadOnlySpan<byte> bytes) =>
        IsUtf16(bytes) || bytes.Contains((byte)0);

    /// <summary>Bytes before the first that is not UTF-8.</summary>
    private static int ValidLength(ReadOnlySpan<byte> bytes)
    {
        var valid = 0;
        while (valid < bytes.Length)
        {
            if (Rune.DecodeFromUtf8(bytes[valid..], out _, out var consumed) != System.Buffers.OperationStatus.Done) return valid;
            valid += consumed;
        }

        return valid;
    }

    private static Finding Report(SourceText text, int place, int length, string heading) =>
        Finding.At(ReadingRules.Syntax, new Location(text, new TextSpan(place, length)), heading);
}
