using System.Collections.Immutable;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax;

/// <summary>The words of the language, and where a statement may begin with which.</summary>
internal static class Words
{
    private const int FirstType = WaterScriptLexer.INCLUDE;

    private static readonly ImmutableArray<string> AtTop =
    [
        "include", "let", "group", "hold", "closed", "extra", "accept", "sequence", "restriction", "schedule", "skip", "days", "keep",
        "site", "supply", "tariff", "controller", "valve", "pump", "master", "injector", "zone", "soil", "plants", "climate", "scale",
    ];

    private static readonly ImmutableArray<string> InSchedule =
        ["every", "on", "manual", "from", "except", "start", "finish", "repeat", "cut", "scale", "note", "formerly", "steps", "keep", "accept"];

    private static readonly ImmutableArray<string> InSteps = ["water", "pause", "repeat", "cycle", "run", "accept"];

    private static readonly ImmutableArray<string> InRestriction =
        ["for", "from", "allow", "except", "at", "exempt", "week", "accept"];

    /// <summary>The words that the grammar names, in the order of their types.</summary>
    private static readonly ImmutableArray<string> Named =
        [.. Enumerable.Range(FirstType, WaterScriptLexer.WORD - FirstType).Select(type => WaterScriptParser.DefaultVocabulary.GetLiteralName(type).Trim('\''))];

    private static readonly Dictionary<string, int> Types = Named.Index().ToDictionary(pair => pair.Item, pair => FirstType + pair.Index);
    private static readonly Dictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> TypesOfSpans = Types.GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>The words with which a statement begins at a place; any word in a description.</summary>
    public static ImmutableArray<string> At(Place place) => place switch
    {
        Place.File => AtTop,
        Place.Schedule => InSchedule,
        Place.Steps => InSteps,
        Place.Restriction => InRestriction,
        _ => [],
    };

    /// <summary>Whether a name is given after a word at the top of a file: <c>zone</c>.</summary>
    public static bool IsNamed(string word) =>
        AtTop.Contains(word) && word is not ("include" or "hold" or "closed" or "extra" or "accept" or "skip" or "keep" or "climate");

    /// <summary>Where a statement stands that begins with a word, as what to do with one that stands elsewhere; null for a word that begins none.</summary>
    public static string? HomeOf(string word) =>
        InSteps.Contains(word) ? "Put it into the steps of a schedule, such as `steps { water lawn for 10 min }`."
        : InSchedule.Contains(word) ? "Put it into a schedule, between its { and }."
        : InRestriction.Contains(word) ? "Put it into a restriction, between its { and }."
        : AtTop.Contains(word) ? "Put it at the top of the file, outside of all braces."
        : null;

    /// <summary>Whether a statement may begin with a word at a place.</summary>
    public static bool BeginsStatement(string word, Place place) =>
        place == Place.Description ? word.Length > 0 && char.IsAsciiLetterLower(word[0]) : At(place).Contains(word);

    /// <summary>A word of the language, and the type of its token; null for any other.</summary>
    public static (int Type, string Text)? Find(ReadOnlySpan<char> word) =>
        TypesOfSpans.TryGetValue(word, out var type) ? (type, Named[type - FirstType]) : null;

    /// <summary>The type of the token that a word is.</summary>
    public static int TypeOf(string word) => Types.GetValueOrDefault(word, WaterScriptLexer.WORD);

    /// <summary>Whether a token is a word, of the language or not.</summary>
    public static bool IsWord(int type) => type is >= WaterScriptLexer.INCLUDE and <= WaterScriptLexer.WORD;
}
