using System.Collections.Immutable;
using System.Globalization;
using Antlr4.Runtime;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax;

/// <summary>What to do about a token that cannot stand where it does.</summary>
/// <param name="Text">In words; empty where that is not known.</param>
/// <param name="Replacement">What stands in place of the token afterwards, where only that can have been meant.</param>
internal readonly record struct Remedy(string Text, string? Replacement = null)
{
    private static readonly Remedy None = new("");

    /// <summary>For a token after the end of a statement.</summary>
    public static Remedy ForLeftover(IToken token) => Saying(token) ?? token.Text switch
    {
        "and" => new("Put a comma in its place."),
        "at" => new("Write start at and the time, on a line of its own."),
        var text when text.StartsWith("sunrise-", StringComparison.Ordinal) || text.StartsWith("sunset-", StringComparison.Ordinal) =>
            new($"Put spaces around the minus, like this: {text.Replace("-", " - ", StringComparison.Ordinal)} min"),
        var text when new[] { Place.File, Place.Steps, Place.Schedule }.Any(place => Words.BeginsStatement(text, place)) =>
            new("If it begins a new statement, put it on a line of its own."),
        _ => None,
    };

    /// <summary>For a token inside a statement.</summary>
    /// <param name="token">The token.</param>
    /// <param name="before">The one before it, or null.</param>
    /// <param name="isExpected">Whether a type of token could stand in its place.</param>
    /// <param name="missing">Words of which each would let it stand.</param>
    public static Remedy For(IToken token, IToken? before, Func<int, bool> isExpected, ImmutableArray<string> missing)
    {
        if (before?.Type == WaterScriptLexer.EVERY && OrdinalOf(token.Text) is { } every) return new($"Write {every}, like this: every {every} days", every);
        if (isExpected(WaterScriptLexer.CLOCK) && TimeOf(token) is { } time) return new($"Write {time}", time);
        if (isExpected(WaterScriptLexer.NUMBER) && token.Type == WaterScriptLexer.CLOCK) return new("Write how long with units, like this: 1 h 30 min");
        if (isExpected(WaterScriptLexer.WITH) && token.Text == "and") return new("Put a plus in its place for together, or a comma for one after the other.");
        return missing switch
        {
            [] => ForLeftover(token),
            [var word] => new($"Write {word} {token.Text}", $"{word} {token.Text}"),
            _ => new($"Put {string.Join(" or ", missing)} before it."),
        };
    }

    private static Remedy? Saying(IToken token) => Slips.Saying(token.Text) is { } form ? new($"Write {form}") : null;

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
        return int.TryParse(hour, NumberStyles.None, CultureInfo.InvariantCulture, out var h) && int.TryParse(minute, NumberStyles.None, CultureInfo.InvariantCulture, out var m) && h < 24 && m < 60
            ? string.Create(CultureInfo.InvariantCulture, $"{h:00}:{m:00}")
            : null;
    }
}
