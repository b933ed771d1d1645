using System.Globalization;
using System.Text.RegularExpressions;
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
internal sealed partial class TokenNormalizer(List<IToken> tokens, Mistakes mistakes)
{
    private readonly List<IToken> _fixed = new(tokens.Count);
    private int _next;
    private bool _inDayNumbers;

    /// <summary>The tokens as the parser is to see them.</summary>
    public List<IToken> Normalize()
    {
        while (_next < tokens.Count) NormalizeOne(tokens[_next++]);
        return _fixed;
    }

    private void NormalizeOne(IToken token)
    {
        _inDayNumbers = token.Type switch
        {
            WaterScriptLexer.DAYS => Before(1)?.Type != WaterScriptLexer.NUMBER,
            WaterScriptLexer.NUMBER or WaterScriptLexer.COMMA => _inDayNumbers,
            _ => false,
        };
        switch (token.Type)
        {
            case WaterScriptLexer.CLOCK: NormalizeClock(token); break;
            case WaterScriptLexer.NUMBER: NormalizeNumber(token); break;
            case WaterScriptLexer.GLUED: NormalizeGlued(token); break;
            case WaterScriptLexer.MALFORMED: NormalizeMalformed(token); break;
            case WaterScriptLexer.WORD or WaterScriptLexer.PATH: NormalizeWord(token); break;
            case WaterScriptLexer.CURLY_STRING: NormalizeQuotes(token); break;
            case WaterScriptLexer.OPEN_STRING: NormalizeOpenLabel(token); break;
            case WaterScriptLexer.MINUS: NormalizeMinus(token); break;
            case WaterScriptLexer.EQUALS: NormalizeEquals(token); break;
            case WaterScriptLexer.UNTIL: NormalizeUntil(token); break;
            case WaterScriptLexer.OTHER: NormalizeOther(token); break;
            default: _fixed.Add(token); break;
        }
    }

    private void NormalizeClock(IToken token)
    {
        if (NormalizeHalfOfDay(token, token.Text)) return;
        var isLength = Before(1)?.Type is WaterScriptLexer.FOR or WaterScriptLexer.PAUSE;
        if (!isLength && token.Text.IndexOf(':', StringComparison.Ordinal) == 1 && TokenSpans.IsOfClock(token.Text))
            Rewrite(token, WaterScriptLexer.CLOCK, "0" + token.Text);
        else _fixed.Add(token);
    }

    /// <summary><c>6:30 pm</c>, <c>6 pm</c></summary>
    private bool NormalizeHalfOfDay(IToken token, string time)
    {
        if (Ahead(0) is not { } half || !KnownTypos.IsHalfOfDay(half.Text, out var afternoon)) return false;
        if (Clock24(time, afternoon) is not { } clock) return false;
        _next++;
        Merge(token, half, WaterScriptLexer.CLOCK, clock);
        return true;
    }

    private void NormalizeNumber(IToken token)
    {
        if (NormalizeHalfOfDay(token, token.Text) || NormalizeDecimalComma(token)) return;
        _fixed.Add(token);
        NormalizeUnit();
    }

    private bool NormalizeDecimalComma(IToken token)
    {
        if (_inDayNumbers || Ahead(0) is not { Type: WaterScriptLexer.COMMA } comma || Ahead(1) is not { Type: WaterScriptLexer.NUMBER } rest) return false;
        if (!TokenSpans.Touch(token, comma) || !TokenSpans.Touch(comma, rest)) return false;
        _next += 2;
        var number = TokenSpans.Make(WaterScriptLexer.NUMBER, token.SpanTo(rest), $"{token.Text}.{rest.Text}");
        mistakes.DecimalComma(number.Span(), token.Text, rest.Text);
        _fixed.Add(number);
        NormalizeUnit();
        return true;
    }

    /// <summary>The unit after the number that was added last.</summary>
    private void NormalizeUnit()
    {
        if (Ahead(0) is not { } unit || NormalizePower(unit)) return;
        if (unit.Type == WaterScriptLexer.PERCENT && TokenSpans.Touch(_fixed[^1], unit)) mistakes.Unusual(_fixed[^1].SpanTo(unit), $"{_fixed[^1].Text} %");
        if (!Words.IsWord(unit.Type) && unit.Type != WaterScriptLexer.PATH) return;
        if (KnownTypos.Unit(KnownTypos.Plain(unit.Text)) is not { } symbol) return;
        _next++;
        Rewrite(unit, TypeOfUnit(symbol), symbol);
    }

    /// <summary><c>m^2</c></summary>
    private bool NormalizePower(IToken unit)
    {
        if (Ahead(1) is not { Type: WaterScriptLexer.OTHER, Text: "^" } || Ahead(2) is not { Type: WaterScriptLexer.NUMBER } power
            || Units.Find(unit.Text + power.Text) is not { } meant)
            return false;
        _next += 3;
        Merge(unit, power, TypeOfUnit(meant.Symbol), meant.Symbol);
        return true;
    }

    private void NormalizeGlued(IToken token)
    {
        var half = GluedHalfOfDay().Match(token.Text);
        if (half.Success && Clock24(half.Groups[1].Value, half.Groups[2].ValueSpan is "pm" or "PM") is { } clock)
        {
            Rewrite(token, WaterScriptLexer.CLOCK, clock);
        }
        else if (GluedTimes().IsMatch(token.Text) && Before(1)?.Type == WaterScriptLexer.REPEAT)
        {
            mistakes.GluedTimes(token.Span(), token.Text[..^1]);
            _fixed.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, new TextSpan(token.StartIndex, token.Text.Length - 1), token.Text[..^1]));
            _fixed.Add(TokenSpans.Make(WaterScriptLexer.TIMES, new TextSpan(token.StopIndex, 1), "times"));
        }
        else if (OrdinalNumber().Match(token.Text) is { Success: true } ordinal)
        {
            mistakes.Ordinal(token.Span(), ordinal.Groups[1].Value);
            _fixed.Add(token);
        }
        else if (Bearing().IsMatch(token.Text))
        {
            mistakes.Unusual(token.Span(), $"{token.Text[..^1]} {token.Text[^1]}");
            _fixed.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, new TextSpan(token.StartIndex, token.Text.Length - 1), token.Text[..^1]));
            _fixed.Add(TokenSpans.Make(WaterScriptLexer.WORD, new TextSpan(token.StopIndex, 1), token.Text[^1..]));
        }
        else if (token.Text.Contains('\u00B0', StringComparison.Ordinal))
        {
            NormalizeDegrees(token);
        }
        else if (Split(token) is { } split && GluedMinutes.Meant(split, Before(1)) is var parts)
        {
            mistakes.Unusual(token.Span(), string.Join(' ', parts.Select(part => part.Text)));
            _fixed.AddRange(parts);
        }
        else
        {
            mistakes.Glued(token.Span());
            _fixed.Add(token);
        }
    }

    /// <summary><c>52°30'N</c>, up to the next blank.</summary>
    private void NormalizeDegrees(IToken token)
    {
        var last = token;
        while (Ahead(0) is { Type: not (WaterScriptLexer.NEWLINE or WaterScriptLexer.RBRACE or TokenConstants.EOF) } next && TokenSpans.Touch(last, next))
            (last, _next) = (next, _next + 1);
        mistakes.Minutes(token.SpanTo(last));
        _fixed.Add(token);
    }

    private void NormalizeMalformed(IToken token)
    {
        var half = GluedHalfOfDay().Match(token.Text);
        if (half.Success && Clock24(half.Groups[1].Value, half.Groups[2].ValueSpan is "pm" or "PM") is { } clock)
        {
            Rewrite(token, WaterScriptLexer.CLOCK, clock);
            return;
        }

        if (NoWhole().IsMatch(token.Text)) mistakes.NoWhole(token.Span());
        else mistakes.Malformed(token.Span(), token.Text);
        _fixed.Add(token);
    }

    private void NormalizeWord(IToken token)
    {
        if (NormalizeForeignDigit(token) || NormalizeSpacedStroke(token) || NormalizeMonthFirst(token)) return;
        var plain = KnownTypos.Plain(token.Text);
        if (plain == token.Text) _fixed.Add(token);
        else Rewrite(token, token.Type, plain);
    }

    /// <summary><c>²5</c>, or a number in the digits of another script: no word of any language begins with one.</summary>
    private bool NormalizeForeignDigit(IToken token)
    {
        if (!char.IsNumber(token.Text[0])) return false;
        mistakes.ForeignDigit(token.Span());
        _fixed.Add(TokenSpans.Make(WaterScriptLexer.OTHER, token.Span(), token.Text));
        return true;
    }

    /// <summary><c>L / min</c></summary>
    private bool NormalizeSpacedStroke(IToken token)
    {
        if (Ahead(0) is not { Type: WaterScriptLexer.OTHER, Text: "/" } || Ahead(1) is not { } below) return false;
        var unit = KnownTypos.Plain($"{token.Text}/{below.Text}");
        if (Units.Find(unit) is null) return false;
        _next += 2;
        Merge(token, below, WaterScriptLexer.PATH, unit);
        return true;
    }

    /// <summary><c>from May 1</c>; a month at the start of a line, as a climate has it, is followed by its value.</summary>
    private bool NormalizeMonthFirst(IToken token)
    {
        if (KnownTypos.Month(token.Text) is not { } month || Ahead(0) is not { Type: WaterScriptLexer.NUMBER } day) return false;
        if (Before(1)?.Type is not (WaterScriptLexer.FROM or WaterScriptLexer.TO or WaterScriptLexer.ON or WaterScriptLexer.EXCEPT or WaterScriptLexer.COMMA))
            return false;
        _next++;
        mistakes.Unusual(token.SpanTo(day), $"{day.Text} {month}");
        _fixed.Add(TokenSpans.Make(WaterScriptLexer.NUMBER, token.Span(), day.Text));
        _fixed.Add(TokenSpans.Make(WaterScriptLexer.WORD, day.Span(), month));
        return true;
    }

    /// <summary><c>from 1 may until 30 sep</c></summary>
    private void NormalizeUntil(IToken token)
    {
        var start = _fixed.FindLastIndex(before => before.Type is WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE) + 1;
        if (start >= _fixed.Count || _fixed[start].Type is not (WaterScriptLexer.FROM or WaterScriptLexer.HOLD or WaterScriptLexer.CLOSED or WaterScriptLexer.ON
            or WaterScriptLexer.EXCEPT) || Ahead(0)?.Type == WaterScriptLexer.LIFTED)
        {
            _fixed.Add(token);
            return;
        }

        mistakes.UntilForTo(token.Span());
        _fixed.Add(TokenSpans.Make(WaterScriptLexer.TO, token.Span(), "to"));
    }

    /// <summary><c>// so</c>, to the end of the line; <c>/* so */</c></summary>
    private bool NormalizeForeignComment(IToken token)
    {
        if (token.Text != "/" || Ahead(0) is not { Text: "/" or "*" } second || !TokenSpans.Touch(token, second)) return false;
        var isLine = second.Text == "/";
        mistakes.ForeignComment(token.SpanTo(second), isLine);
        _next++;
        while (Ahead(0) is { Type: not (WaterScriptLexer.NEWLINE or TokenConstants.EOF) } inside)
        {
            _next++;
            if (isLine || inside.Text != "*" || Ahead(0) is not { Text: "/" } end || !TokenSpans.Touch(inside, end)) continue;
            _next++;
            break;
        }

        return true;
    }

    /// <summary><c>'Rose beds'</c>, <c>‘Rose beds’</c></summary>
    private bool NormalizeSingleQuotes(IToken token)
    {
        if (!IsSingleQuote(token)) return false;
        var last = _next;
        while (last < tokens.Count && tokens[last].Type is not (WaterScriptLexer.NEWLINE or TokenConstants.EOF) && !IsSingleQuote(tokens[last])) last++;
        if (last == _next || last >= tokens.Count || !IsSingleQuote(tokens[last])) return false;
        var label = new TextSpan(token.StopIndex + 1, tokens[last].StartIndex - token.StopIndex - 1);
        var text = token.InputStream.GetText(new Antlr4.Runtime.Misc.Interval(label.Start, label.End - 1));
        mistakes.SingleQuotes(token.SpanTo(tokens[last]), text);
        var isName = IsSecond && Before(1)?.Type is not (WaterScriptLexer.NOTE or WaterScriptLexer.INCLUDE) && Names.IsWellFormed(text);
        _fixed.Add(TokenSpans.Make(isName ? Words.TypeOf(text) : WaterScriptLexer.STRING, token.SpanTo(tokens[last]), isName ? text : $"\"{text}\""));
        _next = last + 1;
        return true;
    }

    private static bool IsSingleQuote(IToken token) => token.Type == WaterScriptLexer.OTHER && token.Text is "'" or "\u2018" or "\u2019" or "\u00B4" or "`";

    private void NormalizeQuotes(IToken token)
    {
        var text = token.Text[1..^1];
        var endsInEscape = (text.Length - text.TrimEnd('\\').Length) % 2 == 1;
        Rewrite(token, WaterScriptLexer.STRING, $"\"{text}{(endsInEscape ? "\\" : "")}\"");
    }

    private void NormalizeOpenLabel(IToken token)
    {
        mistakes.OpenLabel(token.Span());
        var text = token.Text.EndsWith('\\') ? token.Text[..^1] : token.Text;
        _fixed.Add(TokenSpans.Make(WaterScriptLexer.STRING, token.Span(), $"\"{text[1..]}\""));
    }

    private void NormalizeMinus(IToken token)
    {
        var isBetweenWords = Before(1) is { } before && Ahead(0) is { } after && TokenSpans.Touch(before, token) && TokenSpans.Touch(token, after);
        if (token.Text == "-" || isBetweenWords) _fixed.Add(TokenSpans.Make(token.Type, token.Span(), "-"));
        else Rewrite(token, token.Type, "-");
    }

    /// <summary><c>flow = 18 L/min</c></summary>
    private void NormalizeEquals(IToken token)
    {
        var isAfterProperty = IsSecond && Before(1)!.Type is not (WaterScriptLexer.LET or WaterScriptLexer.GROUP);
        if (isAfterProperty) mistakes.NeedlessMark(token.Span(), Before(1)!.Text, "=");
        else _fixed.Add(token);
    }

    private void NormalizeOther(IToken token)
    {
        if (token.Text == ":" && Before(2)?.Type == WaterScriptLexer.LET)
        {
            mistakes.ColonInLet(token.Span(), Before(1)!.Text);
            _fixed.Add(TokenSpans.Make(WaterScriptLexer.EQUALS, token.Span(), "="));
        }
        else if (token.Text == ":" && IsSecond)
        {
            mistakes.NeedlessMark(token.Span(), Before(1)!.Text, ":");
        }
        else if (!NormalizeForeignComment(token) && !NormalizeSingleQuotes(token))
        {
            var isOneOfMany = Before(1) is { Type: WaterScriptLexer.OTHER } before && TokenSpans.Touch(before, token);
            if (!isOneOfMany) mistakes.Stray(token.Span());
            _fixed.Add(token);
        }
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

    private static int TypeOfUnit(string symbol) =>
        symbol == "%" ? WaterScriptLexer.PERCENT : symbol.Contains('/', StringComparison.Ordinal) ? WaterScriptLexer.PATH : Words.TypeOf(symbol);

    /// <summary><c>18:30</c> for <c>6:30</c> in the afternoon; null where no clock shows it in a half day.</summary>
    private static string? Clock24(string time, bool afternoon)
    {
        if (!TokenSpans.IsOfClock(time)) return null;
        var colon = time.IndexOf(':', StringComparison.Ordinal);
        var hours = colon < 0 ? time : time[..colon];
        if (!int.TryParse(hours, NumberStyles.None, CultureInfo.InvariantCulture, out var hour) || hour is < 1 or > 12) return null;
        return string.Create(CultureInfo.InvariantCulture, $"{(hour % 12) + (afternoon ? 12 : 0):00}{(colon < 0 ? ":00" : time[colon..])}");
    }

    private void Rewrite(IToken token, int type, string form) => Merge(token, token, type, form);

    private void Merge(IToken first, IToken last, int type, string form)
    {
        var merged = TokenSpans.Make(type, first.SpanTo(last), form);
        mistakes.Unusual(merged.Span(), form);
        _fixed.Add(merged);
    }

    private bool IsSecond => Before(1) is { } first && Words.IsWord(first.Type) &&
        Before(2)?.Type is null or WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE;

    private IToken? Ahead(int count) => _next + count < tokens.Count ? tokens[_next + count] : null;
    private IToken? Before(int count) => _fixed.Count >= count ? _fixed[^count] : null;

    [GeneratedRegex("^([0-9]{1,2}(?::[0-9]{2})?)(am|pm|AM|PM)$", RegexOptions.CultureInvariant)]
    private static partial Regex GluedHalfOfDay();

    [GeneratedRegex("^([0-9]+)(st|nd|rd|th)$", RegexOptions.CultureInvariant)]
    private static partial Regex OrdinalNumber();

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
