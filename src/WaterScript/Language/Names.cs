using System.Text;

namespace WaterScript.Language;

/// <summary>How a name is formed: words of small letters and digits, the first a letter, joined by single hyphens.</summary>
internal static class Names
{
    /// <summary>Letters as they are written where there are none but a to z.</summary>
    private static readonly (string Letters, string Plain)[] Spellings =
    [
        ("\u00E4\u00E6", "ae"), ("\u00F6\u00F8\u0153", "oe"), ("\u00FC", "ue"), ("\u00DF", "ss"), ("\u00E0\u00E1\u00E2\u00E3\u00E5", "a"),
            ("\u00E8\u00E9\u00EA\u00EB", "e"),
        ("\u00EC\u00ED\u00EE\u00EF", "i"), ("\u00F2\u00F3\u00F4\u00F5", "o"), ("\u00F9\u00FA\u00FB", "u"), ("\u00E7", "c"), ("\u00F1", "n"), (" _-", "-"),
    ];

    /// <summary>Whether a name is well formed.</summary>
    public static bool IsWellFormed(string name)
    {
        if (name.Length == 0 || !char.IsAsciiLetterLower(name[0]) || name[^1] == '-' || name.Contains("--", StringComparison.Ordinal)) return false;
        return name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');
    }

    /// <summary>
    /// The well-formed name that is most like a text, <c>rose-beds</c> for <c>Rose_Beds</c>; null where it has letters of which that is not known.
    /// </summary>
    public static string? Like(string text)
    {
        var name = new StringBuilder();
        foreach (var letter in text.ToLowerInvariant())
        {
            if (char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter)) name.Append(letter);
            else name.Append(Spellings.FirstOrDefault(spelling => spelling.Letters.Contains(letter, StringComparison.Ordinal)).Plain);
        }

        var plain = string.Join('-', name.ToString().Split('-', StringSplitOptions.RemoveEmptyEntries));
        return IsWellFormed(plain) ? plain : null;
    }
}
