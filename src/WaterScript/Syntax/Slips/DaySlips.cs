using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;

namespace WaterScript.Syntax.Slips;

/// <summary>Slips in the days of a schedule or a restriction.</summary>
internal static class DaySlips
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<Func<Phrase, Slip?>> All =>
        [DashInRange, ToMisspelt, Each, OnEvery, EveryWeekday, EveryHours, ExceptOn, NthWithoutMonth, AndInDays, HalfSeason];

    private static bool HasDays(Phrase phrase) => phrase.Place is Place.Schedule or Place.Restriction;

    /// <summary><c>wed–fri</c>, <c>1 apr - 30 sep</c></summary>
    private static Slip? DashInRange(Phrase phrase)
    {
        if (phrase.Place is Place.Steps or Place.Description) return null;
        for (var i = 2; i < phrase.Length - 1; i++)
        {
            if (phrase.Type(i) != WaterScriptLexer.MINUS) continue;
            if (IsWeekday(phrase, i - 1) && IsWeekday(phrase, i + 1))
                return Slip.Written(phrase, i - 1, 3, $"{phrase.Text(i - 1)} to {phrase.Text(i + 1)}");
            if (phrase.Type(i + 1) == WaterScriptLexer.DATE || (phrase.Type(i + 1) == WaterScriptLexer.NUMBER
                && KnownTypos.Month(phrase.Text(i + 2)) is not null))
                return Slip.Written(phrase, i, 1, "to");
        }

        return null;
    }

    /// <summary><c>monto fri</c>, <c>from 1 apr too 30 sep</c></summary>
    private static Slip? ToMisspelt(Phrase phrase)
    {
        if (phrase.Place is Place.Steps or Place.Description) return null;
        for (var i = 1; i < phrase.Length - 1; i++)
        {
            if (!phrase.IsWord(i)) continue;
            if (IsWeekday(phrase, i + 1) && phrase.Text(i).EndsWith("to", StringComparison.Ordinal) && KnownTypos.Weekday(phrase.Text(i)[..^2]) is { } first)
                return Slip.Written(phrase, i, 1, $"{first} to");
            if (phrase.Type(i + 1) == WaterScriptLexer.NUMBER && phrase.Text(i).EndsWith("to", StringComparison.Ordinal)
                && KnownTypos.Month(phrase.Text(i)[..^2]) is { } month) return Slip.Written(phrase, i, 1, $"{month} to");
            var isBetween = (phrase.Type(i - 1) == WaterScriptLexer.DATE || KnownTypos.Month(phrase.Text(i - 1)) is not null)
                && (phrase.Type(i + 1) == WaterScriptLexer.DATE || KnownTypos.Month(phrase.Text(i + 2)) is not null);
            if (isBetween && Spelling.Nearest(phrase.Text(i), ["to"]) is not null) return Slip.Written(phrase, i, 1, "to", isSafe: false);
        }

        return null;
    }

    /// <summary><c>each day</c></summary>
    private static Slip? Each(Phrase phrase) => phrase.Place == Place.Schedule && phrase.Text(0) == "each" && phrase.Length > 1
        ? Slip.Written(phrase, 0, 1, IsWeekday(phrase, 1) ? "on" : "every")
        : null;

    /// <summary><c>on every mon</c>, <c>on every day</c></summary>
    private static Slip? OnEvery(Phrase phrase)
    {
        if (!HasDays(phrase) || phrase.Type(0) != WaterScriptLexer.ON || phrase.Text(1) is not ("every" or "each") || phrase.Length == 2) return null;
        return Slip.Needless(phrase, IsWeekday(phrase, 2) || phrase.Type(2) is WaterScriptLexer.ODD or WaterScriptLexer.EVEN ? 1 : 0);
    }

    /// <summary><c>every mon</c></summary>
    private static Slip? EveryWeekday(Phrase phrase)
    {
        if (phrase.Place != Place.Schedule || phrase.Type(0) != WaterScriptLexer.EVERY) return null;
        if (IsWeekday(phrase, 1)) return Slip.Written(phrase, 0, 1, "on");
        return phrase.Text(1) switch
        {
            "odd" or "even" => Slip.Written(phrase, 0, 1, "on"),
            "weekday" or "workday" => Slip.Written(phrase, 0, 2, "on mon to fri", isSafe: false),
            "weekend" => Slip.Written(phrase, 0, 2, "on sat, sun", isSafe: false),
            "morning" or "evening" or "night" or "afternoon" => Slip.Written(phrase, 1, 1, "day", isSafe: false),
            _ => null,
        };
    }

    /// <summary><c>every 48 h</c></summary>
    private static Slip? EveryHours(Phrase phrase)
    {
        var isMeant = phrase.Place == Place.Schedule && phrase.Type(0) == WaterScriptLexer.EVERY && phrase.IsTime(1) && phrase.Text(2) is "h" or "min";
        return isMeant ? WithinDay(phrase) : null;
    }

    private static Slip WithinDay(Phrase phrase)
    {
        if (phrase.Text(2) != "h" || !int.TryParse(phrase.Text(1), NumberStyles.None, CultureInfo.InvariantCulture, out var hours) || hours == 0)
            return Slip.Answered(phrase, 1, "Write `every day`, and `repeat every 20 min for 4 passes` for passes within a day.");
        if (hours % 24 == 0) return Slip.Written(phrase, 0, 3, hours == 24 ? "every day" : $"every {hours / 24} days", isSafe: false);
        if (24 % hours != 0) return Slip.Answered(phrase, 1, "Write whole days, such as `every 2 days`.");
        var times = Enumerable.Range(0, 24 / hours).Select(index => string.Create(CultureInfo.InvariantCulture, $"{index * hours:00}:00"));
        return Slip.Answered(phrase, 1, $"Write `every day`, and the times, such as `start at {string.Join(", ", times)}`.");
    }

    /// <summary><c>except on sown</c></summary>
    private static Slip? ExceptOn(Phrase phrase) =>
        HasDays(phrase) && phrase.Type(0) == WaterScriptLexer.EXCEPT && phrase.Type(1) == WaterScriptLexer.ON && phrase.Length > 2
            ? Slip.Needless(phrase, 1)
            : null;

    /// <summary><c>on first mon</c></summary>
    private static Slip? NthWithoutMonth(Phrase phrase)
    {
        if (!HasDays(phrase) || phrase.Find(WaterScriptLexer.EVERY) >= 0) return null;
        for (var i = 1; i < phrase.Length - 1; i++)
        {
            var isCounted = phrase.Type(i) is WaterScriptLexer.FIRST or WaterScriptLexer.SECOND or WaterScriptLexer.THIRD or WaterScriptLexer.FOURTH
                or WaterScriptLexer.LAST;
            if (!isCounted || !IsWeekday(phrase, i + 1) || phrase.Type(i + 2) is not (WaterScriptLexer.NEWLINE or WaterScriptLexer.COMMA)) continue;
            var help = $"Write `{phrase.Text(i)} {phrase.Text(i + 1)} of month`.";
            return phrase.Type(i + 2) == WaterScriptLexer.NEWLINE
                ? Slip.Missing(phrase, i + 2, "of month", help: help)
                : Slip.Written(phrase, i, 2, $"{phrase.Text(i)} {phrase.Text(i + 1)} of month");
        }

        return null;
    }

    /// <summary><c>on mon and wed</c>, <c>start at 06:00 and 20:00</c></summary>
    private static Slip? AndInDays(Phrase phrase)
    {
        var isList = phrase.Type(0) is WaterScriptLexer.ON or WaterScriptLexer.EXCEPT or WaterScriptLexer.START or WaterScriptLexer.FINISH
                or WaterScriptLexer.EVERY
            || (phrase.Type(0) == WaterScriptLexer.ALLOW && phrase.Type(1) == WaterScriptLexer.ON);
        return HasDays(phrase) && isList && phrase.Find(WaterScriptLexer.AND, 2) >= 0 ? AndInList(phrase) : null;
    }

    private static Slip? AndInList(Phrase phrase)
    {
        ImmutableArray<SlipPart> parts = [.. Enumerable.Range(2, Math.Max(0, phrase.Length - 3)).Where(index => phrase.Type(index) == WaterScriptLexer.AND)
            .Select(index => phrase.Type(index - 1) == WaterScriptLexer.COMMA ? new SlipPart(index, 1, "") : new SlipPart(index, 1, ","))];
        if (parts.IsEmpty) return null;
        return parts[0].Text.Length == 0
            ? new Slip("\"and\" does not belong here", "Delete `and`.", IsSafe: true, parts)
            : new Slip("\"and\" does not belong here", "Put a comma in its place.", IsSafe: false, parts);
    }

    /// <summary><c>until 30 sep</c>, <c>for 3 weeks</c></summary>
    private static Slip? HalfSeason(Phrase phrase) => (phrase.Place, phrase.Type(0)) switch
    {
        (Place.Schedule, WaterScriptLexer.UNTIL or WaterScriptLexer.TO) when phrase.Length > 1 =>
            Slip.Answered(phrase, 0, "Write both ends, such as `from 1 apr to 30 sep`."),
        (Place.Schedule, WaterScriptLexer.FOR) when phrase.IsTime(1) => Slip.Answered(phrase, 0, "Write from when, such as `from 2026-05-01 for 3 weeks`."),
        _ => null,
    };

    private static bool IsWeekday(Phrase phrase, int index) => KnownTypos.Weekday(phrase.Text(index)) is not null;
}
