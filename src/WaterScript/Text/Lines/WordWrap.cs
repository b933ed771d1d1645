namespace WaterScript.Text.Lines;

/// <summary>Breaks a line between words where it is longer than there are columns for.</summary>
internal static class WordWrap
{
    private const string Indent = "  ";

    /// <summary>The lines that come of it; those after the first stand two columns further in.</summary>
    /// <param name="words">The line, of characters that can all be seen, or that are shown as names that can.</param>
    /// <param name="columns">How many there are; a longer word goes past them, as half a word helps nobody.</param>
    public static IEnumerable<string> Of(string words, int columns)
    {
        var shown = PlainLines.Shown(words);
        var margin = shown[..^shown.AsSpan().TrimStart().Length];
        var line = "";
        foreach (var word in Units(shown[margin.Length..]))
        {
            if (line.Length > 0 && DisplayLine.Of(line).Width + 1 + DisplayLine.Of(word).Width > columns)
            {
                yield return line;
                line = margin + Indent + word;
            }
            else
            {
                line = line.Length == 0 ? margin + word : $"{line} {word}";
            }
        }

        yield return line;
    }

    /// <summary>Words, a number with what it counts and a date as one.</summary>
    private static IEnumerable<string> Units(string text)
    {
        string? unit = null;
        foreach (var word in text.Split(' '))
        {
            if (unit is not null && !IsOpen(unit))
            {
                yield return unit;
                unit = null;
            }

            unit = unit is not null ? $"{unit} {word}" : word;
        }

        yield return unit ?? "";
    }

    /// <summary>Whether something belongs to a number that stands at the end, or is its year: <c>10</c>, <c>1 Mar</c>.</summary>
    private static bool IsOpen(string unit) => unit.Split(' ') is var words && (words.Length == 1
        ? words[0].Length > 0 && words[0].All(char.IsAsciiDigit)
        : words.Length == 2 && words[1].Length == 3 && char.IsAsciiLetterUpper(words[1][0]));
}
