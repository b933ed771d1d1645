using Antlr4.Runtime;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>
/// Goes over the tokens of a file before they are parsed. What is understood though it is written in another way comes out
/// in the language's own form, with advice; what is no token of the language is reported here, and by nobody after.
/// </summary>
internal sealed class TokenNormalizer(TokenCursor cursor)
{
    private readonly GluedNormalizer _glued = new(cursor);
    private readonly TextNormalizer _text = new(cursor);
    private bool _inDayNumbers;

    /// <summary>The tokens as the parser is to see them.</summary>
    public List<IToken> Normalize()
    {
        while (cursor.HasNext) NormalizeOne(cursor.Take());
        return cursor.Fixed;
    }

    private void NormalizeOne(IToken token)
    {
        _inDayNumbers = token.Type switch
        {
            WaterScriptLexer.DAYS => cursor.Before(1)?.Type != WaterScriptLexer.NUMBER,
            WaterScriptLexer.NUMBER or WaterScriptLexer.COMMA => _inDayNumbers,
            _ => false,
        };
        switch (token.Type)
        {
            case WaterScriptLexer.CLOCK: NormalizeClock(token); break;
            case WaterScriptLexer.NUMBER: NormalizeNumber(token); break;
            case WaterScriptLexer.GLUED: _glued.NormalizeGlued(token); break;
            case WaterScriptLexer.MALFORMED: _glued.NormalizeMalformed(token); break;
            case WaterScriptLexer.WORD or WaterScriptLexer.PATH: NormalizeWord(token); break;
            case WaterScriptLexer.CURLY_STRING: _text.NormalizeQuotes(token); break;
            case WaterScriptLexer.OPEN_STRING: _text.NormalizeOpenLabel(token); break;
            case WaterScriptLexer.MINUS: NormalizeMinus(token); break;
            case WaterScriptLexer.EQUALS: NormalizeEquals(token); break;
            case WaterScriptLexer.UNTIL: NormalizeUntil(token); break;
            case WaterScriptLexer.OTHER: NormalizeOther(token); break;
            case WaterScriptLexer.INCLUDE or WaterScriptLexer.BECAUSE or WaterScriptLexer.NOTE:
                if (!_text.NormalizeUnquoted(token)) cursor.Add(token);
                break;
            default: cursor.Add(token); break;
        }
    }

    private void NormalizeClock(IToken token)
    {
        if (NormalizeHalfOfDay(token, token.Text)) return;
        var isLength = cursor.Before(1)?.Type is WaterScriptLexer.FOR or WaterScriptLexer.PAUSE;
        if (!isLength && token.Text.IndexOf(':', StringComparison.Ordinal) == 1 && TokenSpans.IsOfClock(token.Text))
            cursor.Rewrite(token, WaterScriptLexer.CLOCK, "0" + token.Text);
        else cursor.Add(token);
    }

    /// <summary><c>6:30 pm</c>, <c>6 pm</c></summary>
    private bool NormalizeHalfOfDay(IToken token, string time)
    {
        if (cursor.Ahead(0) is not { } half || !KnownTypos.IsHalfOfDay(half.Text, out var afternoon)) return false;
        if (GluedNormalizer.Clock24(time, afternoon) is not { } clock) return false;
        cursor.Skip(1);
        cursor.Merge(token, half, WaterScriptLexer.CLOCK, clock);
        return true;
    }

    private void NormalizeNumber(IToken token)
    {
        if (NormalizeHalfOfDay(token, token.Text) || NormalizeDecimalComma(token) || NormalizeDate(token)) return;
        cursor.Add(token);
        NormalizeUnit();
    }

    private bool NormalizeDecimalComma(IToken token)
    {
        if (_inDayNumbers || cursor.Ahead(0) is not { Type: WaterScriptLexer.COMMA } comma
            || cursor.Ahead(1) is not { Type: WaterScriptLexer.NUMBER } rest) return false;
        if (!TokenSpans.Touch(token, comma) || !TokenSpans.Touch(comma, rest)) return false;
        cursor.Skip(2);
        var number = TokenSpans.Make(WaterScriptLexer.NUMBER, token.SpanTo(rest), $"{token.Text}.{rest.Text}");
        cursor.Mistakes.DecimalComma(number.Span(), token.Text, rest.Text);
        cursor.Add(number);
        NormalizeUnit();
        return true;
    }

    /// <summary><c>12 june 2026</c></summary>
    private bool NormalizeDate(IToken day)
    {
        if (cursor.Ahead(0) is not { } word || KnownTypos.Month(word.Text) is not { } month || cursor.Ahead(1) is not { } year) return false;
        if (DateInWords(day.Text, month, year) is not { } date) return false;
        cursor.Skip(2);
        cursor.Merge(day, year, WaterScriptLexer.DATE, date);
        return true;
    }

    private static string? DateInWords(string day, string month, IToken year) => year.Type == WaterScriptLexer.NUMBER && year.Text.Length == 4
        ? ForeignDate.Meant($"{day}.{MonthNames.All.IndexOf(month) + 1}.{year.Text}")
        : null;

    /// <summary>The unit after the number that was added last.</summary>
    private void NormalizeUnit()
    {
        if (cursor.Ahead(0) is not { } unit || NormalizePower(unit)) return;
        if (unit.Type == WaterScriptLexer.PERCENT && TokenSpans.Touch(cursor.Fixed[^1], unit))
            cursor.Mistakes.Unusual(cursor.Fixed[^1].SpanTo(unit), $"{cursor.Fixed[^1].Text} %");
        if (!Words.IsWord(unit.Type) && unit.Type != WaterScriptLexer.PATH) return;
        if (KnownTypos.Unit(KnownTypos.Plain(unit.Text)) is not { } symbol) return;
        cursor.Skip(1);
        cursor.Rewrite(unit, GluedNormalizer.TypeOfUnit(symbol), symbol);
    }

    /// <summary><c>m^2</c></summary>
    private bool NormalizePower(IToken unit)
    {
        if (cursor.Ahead(1) is not { Type: WaterScriptLexer.OTHER, Text: "^" } || cursor.Ahead(2) is not { Type: WaterScriptLexer.NUMBER } power
            || Units.Find(unit.Text + power.Text) is not { } meant)
            return false;
        cursor.Skip(3);
        cursor.Merge(unit, power, GluedNormalizer.TypeOfUnit(meant.Symbol), meant.Symbol);
        return true;
    }

    private void NormalizeWord(IToken token)
    {
        if (NormalizeForeignDigit(token) || NormalizeNoSpace(token) || NormalizeSpacedStroke(token) || NormalizeMonthFirst(token)) return;
        var plain = KnownTypos.Plain(token.Text);
        if (plain == token.Text) cursor.Add(token);
        else cursor.Rewrite(token, token.Type, plain);
    }

    /// <summary><c>²5</c>, or a number in the digits of another script: no word of any language begins with one.</summary>
    private bool NormalizeForeignDigit(IToken token)
    {
        if (!char.IsNumber(token.Text[0])) return false;
        cursor.Mistakes.ForeignDigit(token.Span());
        cursor.Add(TokenSpans.Make(WaterScriptLexer.OTHER, token.Span(), token.Text));
        return true;
    }

    /// <summary><c>at07:00</c>, <c>to30 sep</c></summary>
    private bool NormalizeNoSpace(IToken token)
    {
        if (token.Text is not { Length: 3 or 4 } text || text.AsSpan(0, 2) is not ("at" or "by" or "to") || text.AsSpan(2).ContainsAnyExceptInRange('0', '9'))
            return false;
        var isTime = cursor.Ahead(0) is { Text: ":" } colon && TokenSpans.Touch(token, colon) && cursor.Ahead(1) is { Type: WaterScriptLexer.NUMBER } minutes
            && TokenSpans.Touch(colon, minutes);
        if (!isTime && !(token.Text[..2] == "to" && cursor.Ahead(0) is { } month && KnownTypos.Month(month.Text) is not null)) return false;
        var last = isTime ? cursor.Ahead(1)! : token;
        cursor.Mistakes.NoSpace(token.SpanTo(last), 2);
        cursor.Add(TokenSpans.Make(Words.TypeOf(token.Text[..2]), new TextSpan(token.StartIndex, 2), token.Text[..2]));
        var rest = TokenCursor.Lexed(cursor.TextOf(token, last)[2..], token.StartIndex + 2).ToList();
        cursor.Skip(isTime ? 2 : 0);
        cursor.PutBack(rest);
        return true;
    }

    /// <summary><c>L / min</c></summary>
    private bool NormalizeSpacedStroke(IToken token)
    {
        if (cursor.Ahead(0) is not { Type: WaterScriptLexer.OTHER, Text: "/" } || cursor.Ahead(1) is not { } below) return false;
        var unit = KnownTypos.Plain($"{token.Text}/{below.Text}");
        if (Units.Find(unit) is null) return false;
        cursor.Skip(2);
        cursor.Merge(token, below, WaterScriptLexer.PATH, unit);
        return true;
    }

    /// <summary><c>from May 1</c>; a month at the start of a line, as a climate has it, is followed by its value.</summary>
    private bool NormalizeMonthFirst(IToken token)
    {
        if (KnownTypos.Month(token.Text) is not { } month || cursor.Ahead(0) is not { Type: WaterScriptLexer.NUMBER } day) return false;
        if (cursor.Before(1)?.Type is not (WaterScriptLexer.FROM or WaterScriptLexer.TO or WaterScriptLexer.ON or WaterScriptLexer.EXCEPT
            or WaterScriptLexer.COMMA))
            return false;
        var comma = cursor.Ahead(1)?.Type == WaterScriptLexer.COMMA ? 1 : 0;
        if (cursor.Ahead(1 + comma) is { } year && DateInWords(day.Text, month, year) is { } date)
        {
            cursor.Skip(2 + comma);
            cursor.Merge(token, year, WaterScriptLexer.DATE, date);
            return true;
        }

        cursor.Skip(1);
        cursor.Mistakes.Unusual(token.SpanTo(day), $"{day.Text} {month}");
        cursor.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, token.Span(), day.Text));
        cursor.Add(TokenSpans.Make(WaterScriptLexer.WORD, day.Span(), month));
        return true;
    }

    /// <summary><c>from 1 may until 30 sep</c></summary>
    private void NormalizeUntil(IToken token)
    {
        if (cursor.First?.Type is not (WaterScriptLexer.FROM or WaterScriptLexer.HOLD or WaterScriptLexer.CLOSED or WaterScriptLexer.ON
            or WaterScriptLexer.EXCEPT) || cursor.Ahead(0)?.Type == WaterScriptLexer.LIFTED)
        {
            cursor.Add(token);
            return;
        }

        cursor.Mistakes.UntilForTo(token.Span());
        cursor.Add(TokenSpans.Make(WaterScriptLexer.TO, token.Span(), "to"));
    }

    private void NormalizeMinus(IToken token)
    {
        var isBetweenWords = cursor.Before(1) is { } before && cursor.Ahead(0) is { } after
            && TokenSpans.Touch(before, token) && TokenSpans.Touch(token, after);
        var isRange = cursor.Ahead(0) is { } next
            && (next.Type is WaterScriptLexer.DATE or WaterScriptLexer.CLOCK || KnownTypos.Weekday(next.Text) is not null
                || (cursor.Ahead(1) is { } month && KnownTypos.Month(month.Text) is not null));
        if (token.Text == "-" || isBetweenWords || isRange) cursor.Add(TokenSpans.Make(token.Type, token.Span(), "-"));
        else cursor.Rewrite(token, token.Type, "-");
    }

    /// <summary><c>flow = 18 L/min</c></summary>
    private void NormalizeEquals(IToken token)
    {
        var isAfterProperty = cursor.IsSecond && cursor.Before(1)!.Type is not (WaterScriptLexer.LET or WaterScriptLexer.GROUP);
        if (isAfterProperty) cursor.Mistakes.NeedlessMark(token.Span(), cursor.Before(1)!.Text, "=");
        else cursor.Add(token);
    }

    private void NormalizeOther(IToken token)
    {
        if (token.Text == ":" && cursor.Before(2)?.Type == WaterScriptLexer.LET)
        {
            cursor.Mistakes.ColonInLet(token.Span(), cursor.Before(1)!.Text);
            cursor.Add(TokenSpans.Make(WaterScriptLexer.EQUALS, token.Span(), "="));
        }
        else if (token.Text == ":" && cursor.IsSecond)
        {
            cursor.Mistakes.NeedlessMark(token.Span(), cursor.Before(1)!.Text, ":");
        }
        else if (!_text.NormalizeForeignComment(token) && !_text.NormalizeSingleQuotes(token) && !_text.NormalizeParentheses(token))
        {
            var isOneOfMany = cursor.Before(1) is { Type: WaterScriptLexer.OTHER } before && TokenSpans.Touch(before, token);
            if (!isOneOfMany) cursor.Mistakes.Stray(token.Span());
            cursor.Add(token);
        }
    }
}
