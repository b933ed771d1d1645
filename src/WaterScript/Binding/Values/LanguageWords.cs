using WaterScript.Language;

namespace WaterScript.Binding.Values;

/// <summary>The words of the language, which a <c>let</c> may not be called, because both stand in the same places.</summary>
internal static class LanguageWords
{
    private static readonly HashSet<string> Words = new(
        [
            .. Schema.Blocks.SelectMany(block => block.Kind.Split(' ').Concat(block.Properties.Select(property => property.Name))),
            .. DayBinder.WeekdayNames, .. DateReader.Months, .. Quantities.Units.All.Select(unit => unit.Symbol),
            "include", "let", "group", "hold", "closed", "extra", "accept", "sequence", "restriction", "schedule", "skip", "keep",
            "every", "on", "manual", "from", "except", "start", "finish", "repeat", "cut", "note", "steps", "water", "pause",
            "cycle", "run", "for", "allow", "at", "exempt", "week", "to", "until", "lifted", "because", "with", "exactly", "through",
            "after", "by", "off", "next", "soak", "auto", "between", "and", "most", "time", "times", "pass", "passes", "sunrise",
            "sunset", "day", "days", "weeks", "odd", "even", "first", "second", "third", "fourth", "last", "of", "month", "all",
        ],
        StringComparer.Ordinal);

    public static bool Contains(string word) => Words.Contains(word);
}
