using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Tokens;

/// <summary>What begins like a number: all of it is one token, and this says of which rule of the grammar.</summary>
internal static class NumberShape
{
    private const string Date = "0000-00-00";

    /// <summary>The rule: the first in the grammar that a whole run of letters, digits, dashes, points, colons and strokes fits.</summary>
    public static int TypeOf(ReadOnlySpan<char> run)
    {
        var number = LengthOfNumber(run);
        if (number == run.Length) return WaterScriptLexer.NUMBER;
        if (IsLike(run, Date)) return WaterScriptLexer.DATE;
        if (IsLike(run, "0:00") || IsLike(run, "00:00") || IsLike(run, "0:00:00") || IsLike(run, "00:00:00")) return WaterScriptLexer.CLOCK;
        return number > 0 && IsGlued(run, number) ? WaterScriptLexer.GLUED : WaterScriptLexer.MALFORMED;
    }

    /// <summary>How much of a run is a number with a decimal point or without; 0 where it begins with the point.</summary>
    private static int LengthOfNumber(ReadOnlySpan<char> run)
    {
        var whole = LengthOfDigits(run);
        if (whole == 0 || whole + 1 >= run.Length || run[whole] != '.') return whole;
        var part = LengthOfDigits(run[(whole + 1)..]);
        return part == 0 ? whole : whole + 1 + part;
    }

    private static int LengthOfDigits(ReadOnlySpan<char> run)
    {
        var end = run.IndexOfAnyExceptInRange('0', '9');
        return end < 0 ? run.Length : end;
    }

    /// <summary>Whether a run has digits where a form has noughts, and is the form elsewhere.</summary>
    private static bool IsLike(ReadOnlySpan<char> run, string form)
    {
        if (run.Length != form.Length) return false;
        for (var i = 0; i < run.Length; i++)
        {
            if (form[i] == '0' ? !char.IsAsciiDigit(run[i]) : run[i] != form[i]) return false;
        }

        return true;
    }

    /// <summary>Whether a unit follows the number: a letter, and then nothing but what words, points and strokes are made of.</summary>
    private static bool IsGlued(ReadOnlySpan<char> run, int number)
    {
        if (!Letters.IsLetter(run[number])) return false;
        foreach (var c in run[(number + 1)..])
        {
            if (!Letters.IsOfWord(c) && c is not ('.' or '/')) return false;
        }

        return true;
    }
}
