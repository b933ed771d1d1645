using System.Collections.Immutable;
using System.Globalization;
using Antlr4.Runtime;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;

namespace WaterScript.Syntax;

/// <summary>What to do about a token that cannot stand where it does.</summary>
/// <param name="Text">In words; empty where that is not known.</param>
/// <param name="Replacement">What stands in place of the token afterwards, where only that can have been meant.</param>
internal readonly record struct Suggestion(string Text, string? Replacement = null)
{
    /// <summary>What is missing before the token, where only that is: <c>`for` or `with`</c>.</summary>
    public string Missing { get; private init; } = "";

    /// <summary>Whether something else may have been meant.</summary>
    public bool IsGuess { get; private init; }

    /// <summary>What to do where a block should begin and none does.</summary>
    public const string NoBlock = "Put a { at the end of this line, and a } after the last line of its block.";

    private static readonly Suggestion None = new("");

    /// <summary>For a token after the end of a statement.</summary>
    public static Suggestion ForLeftover(IToken token) => Saying(token) ?? token.Text switch
    {
        "and" => new("Put a comma in its place."),
        "," => new("Put a ; in its place, or begin a new line: a comma stands only inside a list."),
        "with" or "for" => new("Write how long or how much, not both."),
        var text when token.Type == WaterScriptLexer.STRING && Names.Like(text.Trim('"')) is { } name =>
            new($"Write a name, without quotes: `{name}`."),
        "at" => new("Write `start at` and the time, on a line of its own."),
        var text when text.StartsWith("sunrise-", StringComparison.Ordinal) || text.StartsWith("sunset-", StringComparison.Ordinal) =>
            new($"Put spaces around the minus, such as `{text.Replace("-", " - ", StringComparison.Ordinal)} min`."),
        var text when new[] { Place.File, Place.Steps, Place.Schedule }.Any(place => Words.BeginsStatement(text, place)) =>
            new("If it begins a new statement, put it on a line of its own."),
        _ => None,
    };

    /// <summary>For a token inside a statement.</summary>
    /// <param name="around">The tokens, at that one.</param>
    /// <param name="isExpected">Whether a type of token could stand in its place.</param>
    /// <param name="missing">Words of which each would let it stand.</param>
    public static Suggestion For(ITokenStream around, Func<int, bool> isExpected, ImmutableArray<string> missing)
    {
        var (before, token) = (around.LT(-1), around.LT(1));
        if (before?.Type == WaterScriptLexer.FINISH && token.Text == "at") return new("Write `by`", "by");
        if (before?.Type == WaterScriptLexer.CUT && token.Text == "at") return new("Write `cut off at`", "off at");
        if (before?.Type == WaterScriptLexer.CUT && token.Type is WaterScriptLexer.CLOCK or WaterScriptLexer.SUNRISE or WaterScriptLexer.SUNSET)
            return new($"Write `cut off at {token.Text}`", $"off at {token.Text}");
        if (before?.Type == WaterScriptLexer.REPEAT && isExpected(WaterScriptLexer.EVERY))
            return new("Write the interval first, such as `repeat every 20 min for 3 passes`.");
        if (isExpected(WaterScriptLexer.CLOCK) && BySun(around) is { } sun) return new($"Write `{sun}`.");
        if (before?.Type == WaterScriptLexer.EVERY && OrdinalOf(token.Text) is { } every) return new($"Write `every {every} days`.", every);
        if (isExpected(WaterScriptLexer.CLOCK) && TimeOf(token) is { } time)
            return new($"Write `{time}`", time) { IsGuess = token.Text.Length <= 2 }; // 8 may be in the evening.
        if (isExpected(WaterScriptLexer.NUMBER) && token.Type == WaterScriptLexer.CLOCK) return new("Write how long with units, such as `1 h 30 min`.");
        if (isExpected(WaterScriptLexer.WITH) && token.Text == "and") return new("Put a plus in its place for together, or a comma for one after the other.");
        return missing switch
        {
            [] => Lacking(around, before, isExpected) ?? ForLeftover(token),
            ["for", "with"] when Units.Find(around.LT(2).Text) is { } unit =>
                Before(around, unit.Dimension == Dimension.Time ? "for" : "with") with { Missing = "`for` or `with`" },
            [var word] => Before(around, word),
            _ => new($"Put {string.Join(" or ", missing.Select(word => $"`{word}`"))} before it."),
        };
    }

    /// <summary>A word that is missing; not certainly, where what stands before may be that word, misspelt or taken for a name.</summary>
    private static Suggestion Before(ITokenStream around, string word) => new($"Write `{word}`.", $"{word} {around.LT(1).Text}")
    {
        Missing = $"`{word}`",
        IsGuess = around.LT(-1) is { } before && (before.Text.EndsWith(word, StringComparison.Ordinal) || Spelling.Nearest(before.Text, [word]) is not null),
    };

    /// <summary>For a statement that breaks off, or goes on, where something is still to be said.</summary>
    private static Suggestion? Lacking(ITokenStream around, IToken? before, Func<int, bool> isExpected)
    {
        var token = around.LT(1);
        if (isExpected(WaterScriptLexer.FOR) && isExpected(WaterScriptLexer.WITH) && IsEnd(token))
            return new("Write how long or how much, such as `water lawn for 10 min` or `water lawn with 5 mm`.");
        if (isExpected(WaterScriptLexer.FOR) && isExpected(WaterScriptLexer.UNTIL) && IsEnd(token))
            return new("Write how often or until when, such as `repeat every 20 min for 4 passes` or `repeat every 20 min until 09:00`.");
        if (isExpected(WaterScriptLexer.WORD) && token.Type is WaterScriptLexer.LBRACE or WaterScriptLexer.EQUALS && before is not null)
            return new($"Write a name after `{before.Text}`.");
        if (isExpected(WaterScriptLexer.BECAUSE) && (IsEnd(token) || token.Type == WaterScriptLexer.LBRACE))
            return new("Write why, such as `because \"new plants\"`.");
        if ((isExpected(WaterScriptLexer.SOAK) || before?.Type == WaterScriptLexer.SOAK) && token.Type == WaterScriptLexer.LBRACE)
            return new("Write how long the water may soak in, such as `cycle 6 min soak 30 min { … }`.");
        if (isExpected(WaterScriptLexer.WORD) && !isExpected(WaterScriptLexer.NUMBER) && token.Type == WaterScriptLexer.NUMBER)
            return new("Write a name: things are called by their names here, not by numbers.");
        if (isExpected(WaterScriptLexer.EQUALS) && Words.IsWord(token.Type)) return Before(around, "=");
        if (isExpected(WaterScriptLexer.FROM) && token.Text == "because") return new("Write from when to when, such as `from 2026-06-12 to 2026-06-14`.");
        if (isExpected(WaterScriptLexer.FROM) && KnownTypos.Month(token.Text) is { } month)
            return new($"Write from, and days with their months, such as `from 1 {month} to 31 mar`.");
        return isExpected(WaterScriptLexer.LBRACE) && IsEnd(token) ? new(NoBlock) : null;
    }

    private static bool IsEnd(IToken token) => token.Type is WaterScriptLexer.NEWLINE or WaterScriptLexer.RBRACE or TokenConstants.EOF;

    /// <summary><c>30 min before sunrise</c></summary>
    private static string? BySun(ITokenStream around) =>
        around.LT(1).Type == WaterScriptLexer.NUMBER && Units.Find(around.LT(2).Text, Dimension.Time) is not null && around.LT(3).Text is "before" or "after"
            && around.LT(4).Text is "sunrise" or "sunset"
            ? $"{around.LT(4).Text} {(around.LT(3).Text == "before" ? '-' : '+')} {around.LT(1).Text} {around.LT(2).Text}"
            : null;

    private static Suggestion? Saying(IToken token) => KnownTypos.Saying(token.Text) is { } form ? new($"Write `{form}`.") : null;

    /// <summary><c>every other day</c></summary>
    private static string? OrdinalOf(string word) => word switch
    {
        "other" or "second" => "2",
        "third" => "3",
        "fourth" => "4",
        _ => null,
    };

    /// <summary>The time of day that <c>6</c>, <c>6.30</c> or <c>0630</c> means; null for any other number.</summary>
    private static string? TimeOf(IToken token)
    {
        if (token.Type != WaterScriptLexer.NUMBER) return null;
        var (hour, minute) = token.Text.Split('.') switch
        {
            [{ Length: 4 } digits] => (digits[..2], digits[2..]),
            [{ Length: <= 2 } whole] => (whole, "00"),
            [{ Length: <= 2 } whole, { Length: 2 } part] => (whole, part),
            _ => ("", ""),
        };
        return int.TryParse(hour, NumberStyles.None, CultureInfo.InvariantCulture, out var h)
            && int.TryParse(minute, NumberStyles.None, CultureInfo.InvariantCulture, out var m) && h < 24 && m < 60
            ? string.Create(CultureInfo.InvariantCulture, $"{h:00}:{m:00}")
            : null;
    }
}
