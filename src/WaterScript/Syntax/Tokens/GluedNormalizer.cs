using System.Globalization;
using System.Text.RegularExpressions;
using Antlr4.Runtime;
using WaterScript.Quantities;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>Goes over numbers to which letters or other numbers are glued: <c>18min</c>, <c>6pm</c>, <c>1st</c>, <c>06:00-09:00</c>.</summary>
internal sealed partial class GluedNormalizer(TokenCursor cursor)
{
    private readonly HashSet<string> _givenNames = new(StringComparer.Ordinal);

    /// <summary>Goes over a number to which letters are glued.</summary>
    public void NormalizeGlued(IToken token)
    {
        if (NormalizeName(token) || NormalizeOrdinal(token) || NormalizeHours(token)) return;
        var half = GluedHalfOfDay().Match(token.Text);
        if (half.Success && Clock24(half.Groups[1].Value, half.Groups[2].ValueSpan is "pm" or "PM") is { } clock)
        {
            cursor.Rewrite(token, WaterScriptLexer.CLOCK, clock);
        }
        else if (GluedTimes().IsMatch(token.Text) && cursor.Before(1)?.Type == WaterScriptLexer.REPEAT)
        {
            cursor.Mistakes.GluedTimes(token.Span(), token.Text[..^1]);
            cursor.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, new TextSpan(token.StartIndex, token.Text.Length - 1), token.Text[..^1]));
            cursor.Add(TokenSpans.Make(WaterScriptLexer.TIMES, new TextSpan(token.StopIndex, 1), "times"));
        }
        else if (Bearing().IsMatch(token.Text))
        {
            cursor.Mistakes.Unusual(token.Span(), $"{token.Text[..^1]} {token.Text[^1]}");
            cursor.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, new TextSpan(token.StartIndex, token.Text.Length - 1), token.Text[..^1]));
            cursor.Add(TokenSpans.Make(WaterScriptLexer.WORD, new TextSpan(token.StopIndex, 1), token.Text[^1..]));
        }
        else if (token.Text.EndsWith('\u00B0') && cursor.Before(1) is { Text: "slope" })
        {
            cursor.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, new TextSpan(token.StartIndex, token.Text.Length - 1), token.Text[..^1]));
            cursor.Add(TokenSpans.Make(WaterScriptLexer.WORD, new TextSpan(token.StopIndex, 1), "degrees"));
        }
        else if (token.Text.Contains('\u00B0', StringComparison.Ordinal))
        {
            NormalizeDegrees(token);
        }
        else if (Split(token) is { } split && GluedMinutes.Meant(split, cursor.Before(1)) is var parts)
        {
            cursor.Mistakes.Unusual(token.Span(), string.Join(' ', parts.Select(part => part.Text)));
            cursor.Fixed.AddRange(parts);
        }
        else
        {
            cursor.Mistakes.Glued(token.Span());
            cursor.Add(token);
        }
    }

    /// <summary>A name that begins with a digit, where it is given and where it is used: that is reported where it is given.</summary>
    private bool NormalizeName(IToken token)
    {
        var isGiven = cursor.IsSecond && Words.IsNamed(cursor.Before(1)!.Text);
        if (!isGiven && !_givenNames.Contains(token.Text)) return false;
        _givenNames.Add(token.Text);
        cursor.Add(TokenSpans.Make(WaterScriptLexer.WORD, token.Span(), token.Text));
        return true;
    }

    /// <summary><c>1st apr</c>, <c>1st of april</c>, <c>1st mon of month</c></summary>
    private bool NormalizeOrdinal(IToken token)
    {
        if (OrdinalNumber().Match(token.Text) is not { Success: true } ordinal) return false;
        var number = ordinal.Groups[1].Value;
        var words = cursor.Ahead(0)?.Type == WaterScriptLexer.OF ? 1 : 0;
        var word = cursor.Ahead(words);
        if (word is not null && KnownTypos.Month(word.Text) is { } month)
        {
            cursor.Skip(words + 1);
            cursor.Mistakes.Unusual(token.SpanTo(word), $"{number} {month}");
            cursor.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, token.Span(), number));
            cursor.Add(TokenSpans.Make(WaterScriptLexer.WORD, word.Span(), month));
        }
        else if (words == 0 && word is not null && KnownTypos.Weekday(word.Text) is not null && number is "1" or "2" or "3" or "4")
        {
            string[] counted = ["first", "second", "third", "fourth"];
            cursor.Rewrite(token, Words.TypeOf(counted[number[0] - '1']), counted[number[0] - '1']);
        }
        else
        {
            cursor.Mistakes.Ordinal(token.Span(), number);
            cursor.Add(token);
        }

        return true;
    }

    /// <summary><c>5h30</c>: a time of day after <c>at</c>, a length elsewhere.</summary>
    private bool NormalizeHours(IToken token)
    {
        if (HoursAndMinutes().Match(token.Text) is not { Success: true } match) return false;
        var (hours, minutes) = (int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture), match.Groups[2].Value);
        if (cursor.Before(1)?.Type is WaterScriptLexer.AT or WaterScriptLexer.BY && hours < 24)
        {
            cursor.Rewrite(token, WaterScriptLexer.CLOCK, string.Create(CultureInfo.InvariantCulture, $"{hours:00}:{(minutes.Length == 0 ? "00" : minutes)}"));
            return true;
        }

        if (minutes.Length == 0) return false;
        var form = string.Create(CultureInfo.InvariantCulture, $"{hours} h {int.Parse(minutes, CultureInfo.InvariantCulture)} min");
        cursor.Mistakes.Unusual(token.Span(), form);
        cursor.Fixed.AddRange(TokenCursor.Lexed(form, 0).Select(part => TokenSpans.Make(part.Type, token.Span(), part.Text)));
        return true;
    }

    /// <summary><c>52°30'N</c>, up to the next blank.</summary>
    private void NormalizeDegrees(IToken token)
    {
        var last = token;
        while (cursor.Ahead(0) is { Type: not (WaterScriptLexer.NEWLINE or WaterScriptLexer.RBRACE or TokenConstants.EOF) } next
            && TokenSpans.Touch(last, next))
        {
            last = next;
            cursor.Skip(1);
        }

        cursor.Mistakes.Minutes(token.SpanTo(last));
        cursor.Add(token);
    }

    /// <summary>Goes over what begins like a number and is none.</summary>
    public void NormalizeMalformed(IToken token)
    {
        var half = GluedHalfOfDay().Match(token.Text);
        if (half.Success && Clock24(half.Groups[1].Value, half.Groups[2].ValueSpan is "pm" or "PM") is { } clock)
        {
            cursor.Rewrite(token, WaterScriptLexer.CLOCK, clock);
            return;
        }

        if (NoWhole().IsMatch(token.Text)) cursor.Mistakes.NoWhole(token.Span());
        else cursor.Mistakes.Malformed(token.Span(), token.Text);
        cursor.Add(token);
    }

    /// <summary>The numbers and units that are glued together, or null where one of them is no unit.</summary>
    private static List<IToken>? Split(IToken token)
    {
        var parts = new List<IToken>();
        var text = token.Text;
        for (var i = 0; i < text.Length;)
        {
            var number = NumberAtStart().Match(text, i, text.Length - i);
            if (!number.Success) return null;
            var start = i + number.Length;
            if (UnitAt(text, start) is not (var length, { } symbol)) return null;
            parts.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, new TextSpan(token.StartIndex + i, number.Length), number.Value));
            parts.Add(TokenSpans.Make(TypeOfUnit(symbol), new TextSpan(token.StartIndex + start, length), symbol));
            i = start + length;
        }

        return parts;
    }

    /// <summary>The unit at a place and how long it is as written; a digit belongs to it only in <c>m2</c>, <c>m3/h</c> and the like.</summary>
    private static (int Length, string? Symbol) UnitAt(string text, int start)
    {
        foreach (var match in (Match[])[UnitWithDigit().Match(text, start, text.Length - start), UnitOfLetters().Match(text, start, text.Length - start)])
        {
            var plain = KnownTypos.Plain(match.Value);
            var symbol = KnownTypos.Unit(plain) ?? (Units.Find(plain) is null ? null : plain);
            if (match.Success && symbol is not null) return (match.Length, symbol);
        }

        return (0, null);
    }

    /// <summary>The type of the token that a unit is.</summary>
    public static int TypeOfUnit(string symbol) =>
        symbol == "%" ? WaterScriptLexer.PERCENT : symbol.Contains('/', StringComparison.Ordinal) ? WaterScriptLexer.PATH : Words.TypeOf(symbol);

    /// <summary><c>18:30</c> for <c>6:30</c> in the afternoon; null where no clock shows it in a half day.</summary>
    public static string? Clock24(string time, bool afternoon)
    {
        if (!TokenSpans.IsOfClock(time)) return null;
        var colon = time.IndexOf(':', StringComparison.Ordinal);
        var hours = colon < 0 ? time : time[..colon];
        if (!int.TryParse(hours, NumberStyles.None, CultureInfo.InvariantCulture, out var hour) || hour is < 1 or > 12) return null;
        return string.Create(CultureInfo.InvariantCulture, $"{(hour % 12) + (afternoon ? 12 : 0):00}{(colon < 0 ? ":00" : time[colon..])}");
    }

    [GeneratedRegex("^([0-9]{1,2}(?::[0-9]{2})?)(am|pm|AM|PM)$", RegexOptions.CultureInvariant)]
    private static partial Regex GluedHalfOfDay();

    [GeneratedRegex("^([0-9]+)(st|nd|rd|th)$", RegexOptions.CultureInvariant)]
    private static partial Regex OrdinalNumber();

    [GeneratedRegex("^([0-9]{1,2})[hH]([0-5][0-9])?$", RegexOptions.CultureInvariant)]
    private static partial Regex HoursAndMinutes();

    [GeneratedRegex(@"^[0-9]+(\.[0-9]+)?[NSEW]$", RegexOptions.CultureInvariant)]
    private static partial Regex Bearing();

    [GeneratedRegex(@"^\.[0-9]+$", RegexOptions.CultureInvariant)]
    private static partial Regex NoWhole();

    [GeneratedRegex("^[0-9]+[xX]$", RegexOptions.CultureInvariant)]
    private static partial Regex GluedTimes();

    [GeneratedRegex(@"\G[0-9]+(\.[0-9]+)?", RegexOptions.CultureInvariant)]
    private static partial Regex NumberAtStart();

    [GeneratedRegex(@"\G[^0-9./-]+[23](/[^0-9./-]+)?(?![0-9])", RegexOptions.CultureInvariant)]
    private static partial Regex UnitWithDigit();

    [GeneratedRegex(@"\G[^0-9./-]+(/[^0-9./-]+)?", RegexOptions.CultureInvariant)]
    private static partial Regex UnitOfLetters();
}
