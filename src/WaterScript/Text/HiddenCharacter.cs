using System.Globalization;
using System.Text;

namespace WaterScript.Text;

/// <summary>
/// Characters that show nothing themselves but steer the terminal, turn the direction of reading, or hide what is written:
/// controls, format characters and what else nobody sees (Unicode Standard, 5.21, default-ignorable code points; UTS 55).
/// </summary>
internal static class HiddenCharacter
{
    private const int NonJoiner = 0x200C;
    private const int Joiner = 0x200D;

    /// <summary>First and last of each stretch that is neither a control nor a format character and still shows nothing.</summary>
    private static readonly (int First, int Last)[] Unseen =
    [
        (0x034F, 0x034F), (0x115F, 0x1160), (0x17B4, 0x17B5), (0x180B, 0x180F), (0x2065, 0x2065), (0x3164, 0x3164),
        (0xFE00, 0xFE0F), (0xFFA0, 0xFFA0), (0xFFF0, 0xFFF8), (0xE0000, 0xE0FFF),
    ];

    /// <summary>Whether any of a text may have to be shown by its name.</summary>
    public static bool MayBeIn(ReadOnlySpan<char> text)
    {
        if (!text.ContainsAnyExceptInRange(' ', '~')) return false;
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune == Rune.ReplacementChar || Is(rune)) return true;
        }

        return false;
    }

    /// <summary>Whether a character is shown by its name where it stands: some joiners and variants are part of how a word or an emoji is written.</summary>
    /// <param name="rune">The character.</param>
    /// <param name="before">What stands before it on the line; <see cref="Rune.ReplacementChar"/> for nothing.</param>
    /// <param name="after">What stands after it.</param>
    public static bool IsNamed(Rune rune, Rune before, Rune after) => Is(rune) && rune.Value switch
    {
        0xFE0E or 0xFE0F => !HasVariants(before),
        Joiner => !(IsEmojiPart(before) && IsSymbol(after)) && !(IsOfJoiningScript(before) && IsOfJoiningScript(after)),
        NonJoiner => !(IsOfJoiningScript(before) && IsOfJoiningScript(after)),
        _ => true,
    };

    /// <summary><c>&lt;U+001B&gt;</c></summary>
    public static string NameOf(Rune rune) => string.Create(CultureInfo.InvariantCulture, $"<U+{rune.Value:X4}>");

    /// <summary>
    /// Whether a character turns the direction of reading or hides a text of its own, so that a document for programs writes it by its number.
    /// Joiners and variants stay: they are how words and emoji are written.
    /// </summary>
    public static bool Misleads(Rune rune) =>
        rune.Value is 0x061C or 0x200B or 0x200E or 0x200F or (>= 0x202A and <= 0x202E) or (>= 0x2060 and <= 0x206F) or 0xFEFF or (>= 0xE0000 and <= 0xE0FFF);

    /// <summary>A text of JSON in which such characters are written by their numbers (RFC 8259, 7).</summary>
    /// <param name="json">What stands between the quotes.</param>
    /// <returns>Null where there are none.</returns>
    public static string? Escaped(string json)
    {
        if (!json.EnumerateRunes().Any(Misleads)) return null;
        var text = new StringBuilder(json.Length);
        foreach (var rune in json.EnumerateRunes())
        {
            if (!Misleads(rune)) text.Append(rune.ToString());
            else foreach (var unit in rune.ToString()) text.Append(CultureInfo.InvariantCulture, $"\\u{(int)unit:x4}");
        }

        return text.ToString();
    }

    private static bool Is(Rune rune) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator => true,
        _ => rune.Value >= Unseen[0].First && Unseen.Any(stretch => rune.Value >= stretch.First && rune.Value <= stretch.Last),
    };

    /// <summary>Whether a character may be asked to show as text or as an emoji: symbols, and digits of keycaps.</summary>
    private static bool HasVariants(Rune rune) =>
        !Is(rune) && rune != Rune.ReplacementChar && !Rune.IsLetter(rune) && !Rune.IsWhiteSpace(rune) && !IsMark(rune);

    private static bool IsEmojiPart(Rune rune) => IsSymbol(rune) || rune.Value is 0xFE0F or (>= 0x1F3FB and <= 0x1F3FF);

    private static bool IsSymbol(Rune rune) =>
        rune != Rune.ReplacementChar && Rune.GetUnicodeCategory(rune) is UnicodeCategory.OtherSymbol or UnicodeCategory.MathSymbol;

    /// <summary>Scripts from Arabic to Sinhala, which write joiners and non-joiners within words (UAX 31, 2.3).</summary>
    private static bool IsOfJoiningScript(Rune rune) => rune.Value is >= 0x0620 and <= 0x0DFF && (Rune.IsLetter(rune) || IsMark(rune));

    private static bool IsMark(Rune rune) =>
        Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark or UnicodeCategory.SpacingCombiningMark or UnicodeCategory.EnclosingMark;
}
