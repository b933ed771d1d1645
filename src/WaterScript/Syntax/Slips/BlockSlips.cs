using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Language;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Slips;

/// <summary>Slips in descriptions and in what begins them.</summary>
internal static class BlockSlips
{
    private const decimal SteepestDegrees = 60;

    /// <summary>All of them.</summary>
    public static ImmutableArray<Func<Phrase, Slip?>> All => [JoinedProperty, FromSupply, FromDate, SlopeInDegrees, NameOfWords];

    /// <summary><c>output7</c>, <c>location41.9 N</c></summary>
    private static Slip? JoinedProperty(Phrase phrase)
    {
        var hasDigits = phrase.Place == Place.Description && phrase.IsWord(0) && phrase.Text(0).AsSpan().ContainsAnyInRange('0', '9');
        return hasDigits ? JoinedToNumber(phrase) : null;
    }

    private static Slip? JoinedToNumber(Phrase phrase)
    {
        var schema = Schema.Blocks.FirstOrDefault(block => block.Kind.Split(' ')[0] == phrase.Kind);
        var name = phrase.Text(0).TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '-');
        if (schema?.Find(name) is null) return null;
        var count = phrase.Type(1) == WaterScriptLexer.MALFORMED && phrase.Tokens[1].StartIndex == phrase.Tokens[0].StopIndex + 1 ? 2 : 1;
        var text = $"{name} {phrase.Text(0)[name.Length..]}{(count == 2 ? phrase.Text(1) : "")}";
        return new Slip($"a space is missing in \"{phrase.Text(0)}\"", $"Write `{text}`.", IsSafe: true, [new SlipPart(0, count, text)]);
    }

    /// <summary><c>supply two { from main }</c></summary>
    private static Slip? FromSupply(Phrase phrase) =>
        phrase is { Place: Place.Description, Kind: "supply", Length: 2 } && phrase.Type(0) == WaterScriptLexer.FROM && phrase.IsWord(1)
            ? Slip.Written(phrase, 0, 1, "fed-by", isSafe: false)
            : null;

    /// <summary><c>scale year { from 2026-07-06 85 % }</c></summary>
    private static Slip? FromDate(Phrase phrase) =>
        phrase is { Place: Place.Description, Kind: "scale" } && phrase.Type(0) == WaterScriptLexer.FROM && phrase.Type(1) == WaterScriptLexer.DATE
            ? Slip.Written(phrase, 0, 1, "since")
            : null;

    /// <summary><c>slope 5 degrees</c></summary>
    private static Slip? SlopeInDegrees(Phrase phrase)
    {
        if (phrase is not { Place: Place.Description, Length: 3 } || phrase.Text(0) != "slope"
            || phrase.Text(2) is not ("degrees" or "degree" or "deg" or "\u00B0"))
            return null;
        if (!decimal.TryParse(phrase.Text(1), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var degrees)
            || degrees > SteepestDegrees) return null;
        var percent = Math.Tan((double)degrees * Math.PI / 180) * 100;
        var text = string.Create(CultureInfo.InvariantCulture, $"{percent:0.#} %");
        return new Slip("a slope is not given in degrees", $"Write `{text}`.", IsSafe: false, [new SlipPart(1, 2, text)]);
    }

    /// <summary><c>zone Rose Bed {</c>, <c>zone lawn Front {</c></summary>
    private static Slip? NameOfWords(Phrase phrase)
    {
        if (phrase is not { Place: Place.File, HasBlock: true, Length: > 2 } || !Words.IsNamed(phrase.Text(0)) || phrase.Text(0) == "valve") return null;
        var count = 1;
        while (phrase.IsWord(count) || phrase.Type(count) == WaterScriptLexer.NUMBER) count++;
        if (count < 3 || (count != phrase.Length && (count + 1 != phrase.Length || phrase.Type(count) != WaterScriptLexer.STRING))) return null;
        var words = string.Join(' ', Enumerable.Range(1, count - 1).Select(phrase.Text));
        if (Names.Like(words) is not { } name || !Enumerable.Range(1, count - 2).All(phrase.IsSpaced)) return null;
        var isLabel = count == phrase.Length;
        var isNamed = Names.IsWellFormed(phrase.Text(1)) && isLabel;
        var text = isNamed ? $"{phrase.Text(1)} \"{words[(phrase.Text(1).Length + 1)..]}\"" : isLabel ? $"{name} \"{words}\"" : name;
        return new Slip("a name is one word", $"Write `{phrase.Text(0)} {text}`.", IsSafe: false, [new SlipPart(1, count - 1, text)]);
    }
}
