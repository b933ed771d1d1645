namespace WaterScript.Syntax.Tokens;

/// <summary>The sets of characters that the grammar makes words and blanks of.</summary>
internal static class Letters
{
    /// <summary><c>LETTER</c>: what a word begins with.</summary>
    public static bool IsLetter(char c) => char.IsAscii(c) ? char.IsAsciiLetter(c) || c == '_' : c is '\u00AA' or '\u00B0' or '\u00B2' or '\u00B3' or '\u00B5'
        or '\u00BA' or (>= '\u00C0' and <= '\u00D6') or (>= '\u00D8' and <= '\u00F6') or (>= '\u00F8' and <= '\u02FF') or (>= '\u0370' and <= '\u167F')
        or (>= '\u1681' and <= '\u1FFF') or (>= '\u2C00' and <= '\u2DFF') or (>= '\u3005' and <= '\u3007') or (>= '\u3021' and <= '\uD7FF')
        or (>= '\uF900' and <= '\uFDFF') or (>= '\uFE70' and <= '\uFEFE') or (>= '\uFF21' and <= '\uFF3A') or (>= '\uFF41' and <= '\uFF5A')
        or (>= '\uFF66' and <= '\uFFDC');

    /// <summary><c>WORD_PART</c>: what a word goes on with.</summary>
    public static bool IsOfWord(char c) => char.IsAscii(c) ? char.IsAsciiLetterOrDigit(c) || c is '_' or '-'
        : IsLetter(c) || c is (>= '\u0300' and <= '\u036F') or (>= '\uFE00' and <= '\uFE0F');

    /// <summary>Of <c>BLANK</c>.</summary>
    public static bool IsBlank(char c) => c is ' ' or '\t' or <= '\u0008' or '\u000B' or '\u000C' or (>= '\u000E' and <= '\u001F')
        or (>= '\u007F' and <= '\u00A0') or '\u1680' or (>= '\u2000' and <= '\u200F') or (>= '\u2028' and <= '\u202F') or (>= '\u205F' and <= '\u206F')
        or '\u3000' or '\uFEFF';
}
