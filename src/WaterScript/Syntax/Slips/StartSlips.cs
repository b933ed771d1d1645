using System.Collections.Immutable;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Slips;

/// <summary>Slips in the times of a schedule or a restriction.</summary>
internal static class StartSlips
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<Func<Phrase, Slip?>> All => [AtAlone, TimesWithoutComma, CutBy, BetweenTo];

    /// <summary><c>at 05:30</c></summary>
    private static Slip? AtAlone(Phrase phrase) => phrase.Place == Place.Schedule && phrase.Type(0) == WaterScriptLexer.AT && phrase.IsMoment(1)
        ? Slip.Missing(phrase, 0, "start", help: "Write `start at`.")
        : null;

    /// <summary><c>start at 20:00 21:30</c></summary>
    private static Slip? TimesWithoutComma(Phrase phrase)
    {
        var hasTimes = phrase.Place == Place.Schedule && phrase.Type(0) is WaterScriptLexer.START or WaterScriptLexer.FINISH;
        return hasTimes ? WithoutComma(phrase) : null;
    }

    private static Slip? WithoutComma(Phrase phrase)
    {
        ImmutableArray<SlipPart> parts = [.. Enumerable.Range(2, Math.Max(0, phrase.Length - 2))
            .Where(index => phrase.Type(index) == WaterScriptLexer.CLOCK && phrase.IsMoment(index - 1)).Select(index => new SlipPart(index, 0, ","))];
        if (parts.IsEmpty) return null;
        var first = parts[0].First;
        return new Slip($"a comma is missing before \"{phrase.Text(first)}\"", $"Write `{phrase.Text(first - 1)}, {phrase.Text(first)}`.", IsSafe: true, parts);
    }

    /// <summary><c>cut by 07:00</c></summary>
    private static Slip? CutBy(Phrase phrase)
    {
        if (phrase.Place != Place.Schedule || phrase.Type(0) != WaterScriptLexer.CUT) return null;
        if (phrase.Text(1) is "by" or "before" && phrase.IsMoment(2))
            return Slip.Written(phrase, 1, 1, "off at", help: $"Write `cut off at {phrase.Text(2)}`.");
        return phrase.Type(1) == WaterScriptLexer.OFF && phrase.Text(2) is "by" or "before" && phrase.IsMoment(3)
            ? Slip.Written(phrase, 2, 1, "at", help: $"Write `cut off at {phrase.Text(3)}`.")
            : null;
    }

    /// <summary><c>between 20:00 - 09:00</c>, <c>between 20:00 to 09:00</c>, <c>allow from 20:00 to 09:00</c></summary>
    private static Slip? BetweenTo(Phrase phrase)
    {
        if (phrase.Place != Place.Restriction || phrase.Type(0) != WaterScriptLexer.ALLOW || !phrase.IsMoment(2)) return null;
        for (var i = 3; i < phrase.Length - 1; i++)
        {
            if (phrase.Type(i) is not (WaterScriptLexer.MINUS or WaterScriptLexer.TO or WaterScriptLexer.UNTIL) || !phrase.IsMoment(i + 1)) continue;
            if (phrase.Type(1) == WaterScriptLexer.BETWEEN) return Slip.Written(phrase, i, 1, "and");
            return phrase.Type(1) == WaterScriptLexer.FROM
                ? new Slip("\"from\" does not belong here", $"Write `between {phrase.Text(2)} and {phrase.Text(i + 1)}`.", IsSafe: true,
                    [new SlipPart(1, 1, "between"), new SlipPart(i, 1, "and")])
                : null;
        }

        return null;
    }
}
