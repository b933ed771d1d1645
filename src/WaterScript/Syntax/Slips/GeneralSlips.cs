using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Quantities;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Slips;

/// <summary>Slips that may stand in any statement.</summary>
internal static class GeneralSlips
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<Func<Phrase, Slip?>> All => [Misspelt, NumberInWords, The, AndInLength];

    /// <summary><c>hold lawn from 2026-06-01 for 3 days becaus "new turf"</c>, <c>repeat every 8 min untel sunset</c></summary>
    private static Slip? Misspelt(Phrase phrase)
    {
        var hasReason = phrase.Type(0) is WaterScriptLexer.HOLD or WaterScriptLexer.CLOSED or WaterScriptLexer.EXTRA or WaterScriptLexer.ACCEPT;
        for (var i = 1; i < phrase.Length - 1; i++)
        {
            if (!phrase.IsWord(i)) continue;
            var word = hasReason && phrase.Type(i + 1) == WaterScriptLexer.STRING ? "because"
                : phrase.Type(0) == WaterScriptLexer.REPEAT && phrase.IsMoment(i + 1) ? "until"
                : null;
            if (word == "until" && phrase.Text(i).EndsWith(word, StringComparison.Ordinal) && Units.Find(phrase.Text(i)[..^word.Length]) is { } unit)
                return Slip.Written(phrase, i, 1, $"{unit.Symbol} {word}");
            if (word is not null && phrase.Text(i).EndsWith(word, StringComparison.Ordinal) && phrase.Text(i) != word)
                return Slip.Written(phrase, i, 1, $"{phrase.Text(i)[..^word.Length]} {word}", isSafe: false);
            if (word is not null && Spelling.Nearest(phrase.Text(i), [word]) is not null) return Slip.Written(phrase, i, 1, word);
        }

        return null;
    }

    /// <summary><c>every two days</c></summary>
    private static Slip? NumberInWords(Phrase phrase)
    {
        for (var i = 1; i < phrase.Length - 1; i++)
        {
            if (phrase.IsWord(i) && NumberOf(phrase.Text(i)) is { } number && IsCounted(phrase, i + 1)) return Slip.Written(phrase, i, 1, number);
        }

        return null;
    }

    private static string? NumberOf(string word) => word switch
    {
        "one" => "1",
        "two" => "2",
        "three" => "3",
        "four" => "4",
        "five" => "5",
        "six" => "6",
        "seven" => "7",
        "eight" => "8",
        "nine" => "9",
        "ten" => "10",
        "eleven" => "11",
        "twelve" => "12",
        "fifteen" => "15",
        "twenty" => "20",
        "thirty" => "30",
        "forty" => "40",
        "sixty" => "60",
        _ => null,
    };

    private static bool IsCounted(Phrase phrase, int index) => Units.Find(phrase.Text(index)) is not null || phrase.Type(index)
        is WaterScriptLexer.DAY or WaterScriptLexer.DAYS or WaterScriptLexer.WEEK or WaterScriptLexer.WEEKS
        or WaterScriptLexer.TIME or WaterScriptLexer.TIMES or WaterScriptLexer.PASS or WaterScriptLexer.PASSES;

    /// <summary><c>water the beds</c></summary>
    private static Slip? The(Phrase phrase)
    {
        if (phrase.Place == Place.File && phrase.HasBlock) return null;
        for (var i = 1; i < phrase.Length - 1; i++)
        {
            if (phrase.Text(i) == "the" && phrase.Type(i + 1) is WaterScriptLexer.WORD or WaterScriptLexer.FIRST or WaterScriptLexer.SECOND
                or WaterScriptLexer.THIRD or WaterScriptLexer.FOURTH or WaterScriptLexer.LAST or WaterScriptLexer.MONTH or WaterScriptLexer.DAY)
                return Slip.Needless(phrase, i);
        }

        return null;
    }

    /// <summary><c>1 h and 5 min</c></summary>
    private static Slip? AndInLength(Phrase phrase)
    {
        for (var i = 2; i < phrase.Length - 2; i++)
        {
            if (phrase.Type(i) is not (WaterScriptLexer.AND or WaterScriptLexer.COMMA) || !phrase.IsTime(i - 2) || !phrase.IsTime(i + 1)) continue;
            if (SecondsOf(phrase.Text(i - 1)) > SecondsOf(phrase.Text(i + 2))) return Slip.Needless(phrase, i);
        }

        return null;
    }

    private static decimal SecondsOf(string unit) => Units.Find(unit, Dimension.Time) is { } known ? known.Numerator / known.Denominator : 0;
}
