using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Answers.Diff.Written;

/// <summary>What is written at a place, whatever its layout.</summary>
internal static class WrittenText
{
    private const string Marks = ",+={};";

    /// <summary>On one line, without comments.</summary>
    public static string Of(Location place) => string.Join(' ', place.Text.Split('\n').SelectMany(WordsOf));

    /// <summary>The same for texts that say the same: <c>90 min</c> and <c>1 h 30 min</c>, with a blank before a comma or without one.</summary>
    /// <param name="text">The text.</param>
    /// <param name="nameOf">What a name is called in the other version; null where no name is another.</param>
    public static string KeyOf(string text, Func<string, string>? nameOf = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        var words = Pieces(text).ToList();
        var key = new List<string>(words.Count);
        var seconds = 0m;
        for (var index = 0; index < words.Count; index++)
        {
            var quantity = QuantityAt(words, index);
            if (quantity is { Unit.Dimension: Dimension.Time } time)
            {
                seconds += time.InBase;
                index++;
                if (QuantityAt(words, index + 1) is { Unit.Dimension: Dimension.Time }) continue;
                key.Add(Plain(seconds) + " s");
                seconds = 0;
            }
            else if (quantity is { } other)
            {
                key.Add($"{Plain(other.InBase)} {other.Unit.Dimension}");
                index++;
            }
            else
            {
                key.Add(NumberOf(words[index]) is { } number ? Plain(number) : nameOf?.Invoke(words[index]) ?? words[index]);
            }
        }

        return string.Join(' ', key);
    }

    /// <summary>How long a duration is, in seconds; null where a name stands for it.</summary>
    public static long? SecondsOf(string text)
    {
        var words = Pieces(text).ToList();
        var times = Enumerable.Range(0, words.Count).Select(index => QuantityAt(words, index)).OfType<Quantity>()
            .Where(quantity => quantity.Dimension == Dimension.Time).ToList();
        return times.Count * 2 == words.Count ? (long)times.Sum(quantity => quantity.InBase) : null;
    }

    private static Quantity? QuantityAt(List<string> words, int index) =>
        index + 1 < words.Count && NumberOf(words[index]) is { } number && Units.Find(words[index + 1]) is { } unit ? new Quantity(number, unit) : null;

    private static decimal? NumberOf(string word) =>
        word.Length > 0 && char.IsAsciiDigit(word[0]) && decimal.TryParse(word, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            && number <= Limits.MostNumber ? number : null;

    private static string Plain(decimal number) => number.ToString("0.############", CultureInfo.InvariantCulture);

    private static IEnumerable<string> WordsOf(string line)
    {
        var isQuoted = false;
        var end = 0;
        while (end < line.Length && (isQuoted || line[end] != '#'))
        {
            if (line[end] == '"' && (end == 0 || line[end - 1] != '\\')) isQuoted = !isQuoted;
            end++;
        }

        return line[..end].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
    }

    /// <summary>Words, marks and quoted texts.</summary>
    private static IEnumerable<string> Pieces(string text)
    {
        var start = 0;
        while (start < text.Length)
        {
            var end = start + 1;
            if (text[start] == '"')
            {
                while (end < text.Length && (text[end] != '"' || text[end - 1] == '\\')) end++;
                end = Math.Min(end + 1, text.Length);
            }
            else if (!IsBreak(text[start]))
            {
                while (end < text.Length && !IsBreak(text[end]) && text[end] != '"') end++;
            }

            if (!char.IsWhiteSpace(text[start])) yield return text[start..end];
            start = end;
        }
    }

    private static bool IsBreak(char letter) => char.IsWhiteSpace(letter) || Marks.Contains(letter, StringComparison.Ordinal) || letter == '%';
}
