using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Quantities;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Slips;

/// <summary>Slips in steps.</summary>
internal static class StepSlips
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<Func<Phrase, Slip?>> All =>
        [NoZone, ForGlued, Waits, PauseFor, ZoneAlone, CommaBeforeFor, SecondStep, CommaAtEnd, CommaBeforeSoak];

    /// <summary><c>water for 5 min</c></summary>
    private static Slip? NoZone(Phrase phrase) => phrase.Place == Place.Steps && phrase.Type(0) == WaterScriptLexer.WATER
        && phrase.Type(1) is WaterScriptLexer.FOR or WaterScriptLexer.WITH && phrase.Type(2) == WaterScriptLexer.NUMBER
            ? Slip.Answered(phrase, 1, $"Name a zone, such as `water lawn {Rest(phrase.Text(1), phrase)}`.") with
            {
                Heading = $"no zone before \"{phrase.Text(1)}\"",
            }
            : null;

    /// <summary><c>water lawnfor 5 min</c>, <c>water lawn foor 5 min</c></summary>
    private static Slip? ForGlued(Phrase phrase)
    {
        if (phrase.Place != Place.Steps || phrase.Type(0) != WaterScriptLexer.WATER || !IsOpenList(phrase)) return null;
        for (var i = 1; i < phrase.Length - 1; i++)
        {
            if (!phrase.IsWord(i) || phrase.Type(i + 1) != WaterScriptLexer.NUMBER) continue;
            var text = phrase.Text(i);
            if (Words.IsWord(phrase.Type(i - 1)) && i > 1)
                return Spelling.Nearest(text, ["for", "with"]) is { } word ? Slip.Written(phrase, i, 1, word, isSafe: false) : null;
            var ending = text.EndsWith("for", StringComparison.Ordinal) ? "for" : text.EndsWith("with", StringComparison.Ordinal) ? "with" : "";
            if (ending.Length > 0 && text.Length > ending.Length) return Slip.Written(phrase, i, 1, $"{text[..^ending.Length]} {ending}", isSafe: false);
        }

        return null;
    }

    /// <summary><c>soak 10 min</c>, <c>delay 10 min</c></summary>
    private static Slip? Waits(Phrase phrase)
    {
        if (phrase.Place != Place.Steps || phrase.HasBlock || !(phrase.IsTime(1) || (phrase.Type(1) == WaterScriptLexer.FOR && phrase.IsTime(2)))) return null;
        return phrase.Text(0) switch
        {
            "soak" => Slip.Written(phrase, 0, 1, "pause", isSafe: false,
                $"Write `pause {Rest(phrase)}`, or `cycle 6 min soak {Rest(phrase)} {{ … }}` around steps that water in pieces."),
            "wait" or "delay" or "rest" or "sleep" => Slip.Written(phrase, 0, 1, "pause", isSafe: false),
            _ => null,
        };
    }

    private static string Rest(string word, Phrase phrase) => $"{word} {phrase.Text(2)} {phrase.Text(3)}".TrimEnd();

    private static string Rest(Phrase phrase) =>
        string.Join(' ', phrase.Tokens.Skip(1).Where(token => token.Type != WaterScriptLexer.FOR).Select(token => token.Text));

    /// <summary><c>pause for 2 min</c></summary>
    private static Slip? PauseFor(Phrase phrase) =>
        phrase.Place == Place.Steps && phrase.Type(0) == WaterScriptLexer.PAUSE && phrase.Type(1) == WaterScriptLexer.FOR && phrase.Length > 2
            ? Slip.Needless(phrase, 1)
            : null;

    /// <summary><c>lawn 10 min</c></summary>
    private static Slip? ZoneAlone(Phrase phrase)
    {
        if (phrase.Place != Place.Steps || phrase.HasBlock || !phrase.IsWord(0) || phrase.Type(1) != WaterScriptLexer.NUMBER) return null;
        if (Spelling.Nearest(phrase.Text(0), Words.At(Place.Steps)) is not null || Units.Find(phrase.Text(2)) is not { } unit) return null;
        return Slip.Written(phrase, 0, 1, $"water {phrase.Text(0)} {(unit.Dimension == Dimension.Time ? "for" : "with")}", isSafe: false,
            $"Write `water {phrase.Text(0)} {(unit.Dimension == Dimension.Time ? "for" : "with")} {Rest(phrase)}`.");
    }

    /// <summary><c>water lawn, for 3 min</c></summary>
    private static Slip? CommaBeforeFor(Phrase phrase)
    {
        if (phrase.Place != Place.Steps || phrase.Type(0) != WaterScriptLexer.WATER) return null;
        for (var i = 2; i < phrase.Length - 2; i++)
        {
            if (phrase.Type(i) is not (WaterScriptLexer.COMMA or WaterScriptLexer.PLUS) || phrase.Type(i + 2) != WaterScriptLexer.NUMBER
                || phrase.Type(i + 1) is not (WaterScriptLexer.FOR or WaterScriptLexer.WITH)) continue;
            return phrase.Type(i) == WaterScriptLexer.COMMA
                ? Slip.Needless(phrase, i) with { Help = "Delete the comma." }
                : Slip.Needless(phrase, i) with { Help = "Name a zone after the `+`, or delete it.", IsSafe = false };
        }

        return null;
    }

    /// <summary><c>water lawn for 2 min, pause 1 min</c></summary>
    private static Slip? SecondStep(Phrase phrase)
    {
        if (phrase.Place != Place.Steps || phrase.HasBlock || phrase.Type(0) is not (WaterScriptLexer.WATER or WaterScriptLexer.PAUSE or WaterScriptLexer.RUN))
            return null;
        var from = phrase.Type(0) == WaterScriptLexer.WATER ? Math.Max(phrase.Find(WaterScriptLexer.FOR), phrase.Find(WaterScriptLexer.WITH)) : 1;
        for (var i = Math.Max(from, 1); from > 0 && i < phrase.Length - 2; i++)
        {
            if (phrase.Type(i) != WaterScriptLexer.COMMA && phrase.Text(i) is not ("then" or "and")) continue;
            var next = phrase.Type(i) == WaterScriptLexer.COMMA && phrase.Text(i + 1) is "then" or "and" ? i + 2 : i + 1;
            if (!BeginsStep(phrase, next)) continue;
            return new Slip("a second step needs a line of its own", $"Write a `;` before `{phrase.Text(next)}`, or begin a new line.", IsSafe: true,
                [new SlipPart(i, next - i, ";")]);
        }

        return null;
    }

    private static bool BeginsStep(Phrase phrase, int index) =>
        (phrase.Type(index) == WaterScriptLexer.PAUSE && phrase.Type(index + 1) is WaterScriptLexer.NUMBER or WaterScriptLexer.WORD)
        || (phrase.Type(index) is WaterScriptLexer.WATER or WaterScriptLexer.RUN && Words.IsWord(phrase.Type(index + 1))
            && phrase.Type(index + 1) is not (WaterScriptLexer.FOR or WaterScriptLexer.WITH));

    /// <summary><c>water lawn for 2 min,</c></summary>
    private static Slip? CommaAtEnd(Phrase phrase)
    {
        if (phrase.HasBlock || phrase.Length < 3 || phrase.Type(phrase.Length - 1) != WaterScriptLexer.COMMA || IsOpenList(phrase)) return null;
        return new Slip("a comma at the end of a line", "Delete the comma.", IsSafe: false, [new SlipPart(phrase.Length - 1, 1, "")]);
    }

    /// <summary>Whether a watering does not say yet how long.</summary>
    private static bool IsOpenList(Phrase phrase) => phrase.Type(0) == WaterScriptLexer.WATER
        && Math.Max(phrase.Find(WaterScriptLexer.FOR), phrase.Find(WaterScriptLexer.WITH)) < 2;

    /// <summary><c>cycle 6 min, soak 30 min</c></summary>
    private static Slip? CommaBeforeSoak(Phrase phrase)
    {
        var soak = phrase.Place == Place.Steps && phrase.Type(0) == WaterScriptLexer.CYCLE ? phrase.Find(WaterScriptLexer.SOAK) : -1;
        return soak > 1 && phrase.Type(soak - 1) is WaterScriptLexer.COMMA or WaterScriptLexer.AND ? Slip.Needless(phrase, soak - 1) : null;
    }
}
