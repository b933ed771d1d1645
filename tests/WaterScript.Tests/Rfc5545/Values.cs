using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using NodaTime;

namespace WaterScript.Tests.Rfc5545;

/// <summary>Values of properties (RFC 5545, 3.3); whatever is not as the grammar has it is <see cref="Malformed"/>.</summary>
internal static partial class Values
{
    /// <summary>Texts with commas between, without their escapes (3.3.11).</summary>
    public static IReadOnlyList<string> Texts(ContentLine line)
    {
        var texts = new List<string>();
        var text = new StringBuilder();
        for (var i = 0; i < line.Value.Length; i++)
        {
            switch (line.Value[i])
            {
                case '\\':
                    text.Append(Unescaped(line, ++i));
                    break;
                case ',':
                    texts.Add(text.ToString());
                    text.Clear();
                    break;
                case ';':
                    throw new Malformed(line.Number, "has a bare semicolon in a text");
                case var letter:
                    text.Append(letter);
                    break;
            }
        }

        return [.. texts, text.ToString()];
    }

    /// <summary>A local date with time, and whether it is in UTC (3.3.5); nothing else is taken for a time here.</summary>
    public static (LocalDateTime Wall, bool IsUtc) Time(int line, string value)
    {
        var isUtc = value.EndsWith('Z');
        return DateTime.TryParseExact(isUtc ? value[..^1] : value, "yyyyMMdd'T'HHmmss", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? (LocalDateTime.FromDateTime(time), isUtc)
            : throw new Malformed(line, $"{value} is no DATE-TIME");
    }

    /// <summary>A date that says that it is one (3.3.4).</summary>
    public static LocalDate Date(ContentLine line) =>
        line.Parameters is { Count: 1 } && line.Parameters.GetValueOrDefault("VALUE") == "DATE"
        && DateTime.TryParseExact(line.Value, "yyyyMMdd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)
            ? LocalDate.FromDateTime(date)
            : throw new Malformed(line.Number, $"{line.Value} is no DATE");

    public static Instant Utc(ContentLine line)
    {
        var (wall, isUtc) = Time(line.Number, line.Value);
        return isUtc && line.Parameters.Count == 0 ? wall.InUtc().ToInstant() : throw new Malformed(line.Number, $"{line.Name} is not in UTC");
    }

    /// <summary>Seconds of a duration above zero (3.3.6).</summary>
    public static long Duration(ContentLine line)
    {
        var match = DurationGrammar().Match(line.Value);
        var seconds = match.Groups["number"].Captures.Zip(match.Groups["unit"].Captures)
            .Sum(pair => long.Parse(pair.First.Value, CultureInfo.InvariantCulture) * Seconds(pair.Second.Value[0]));
        return match.Success && seconds > 0 ? seconds : throw new Malformed(line.Number, $"{line.Value} is not a duration above zero");
    }

    /// <summary>Seconds east of Greenwich (3.3.14).</summary>
    public static int Offset(ContentLine line)
    {
        var match = OffsetGrammar().Match(line.Value);
        if (!match.Success || line.Value is "-0000" or "-000000") throw new Malformed(line.Number, $"{line.Value} is no offset");
        var digits = match.Groups["digits"].Value.PadRight(6, '0');
        var seconds = (Number(digits[..2]) * 3600) + (Number(digits[2..4]) * 60) + Number(digits[4..]);
        return line.Value[0] == '-' ? -seconds : seconds;
    }

    private static int Number(string digits) => int.Parse(digits, CultureInfo.InvariantCulture);

    private static char Unescaped(ContentLine line, int at) =>
        at < line.Value.Length && line.Value[at] is var letter && letter is '\\' or ';' or ',' or 'n' or 'N'
        ? line.Value[at] is 'n' or 'N' ? '\n' : line.Value[at]
        : throw new Malformed(line.Number, "has an escape that is none");

    private static long Seconds(char unit) => unit switch { 'W' => 604800, 'D' => 86400, 'H' => 3600, 'M' => 60, _ => 1 };

    [GeneratedRegex(
        """^\+?P(?:(?<number>\d+)(?<unit>W)|(?=.)(?:(?<number>\d+)(?<unit>D))?"""
            + """(?:T(?=.)(?:(?<number>\d+)(?<unit>H)(?!\d+S))?(?:(?<number>\d+)(?<unit>M))?(?:(?<number>\d+)(?<unit>S))?)?)$""",
        RegexOptions.CultureInvariant)]
    private static partial Regex DurationGrammar();

    [GeneratedRegex("""^[+-](?<digits>(?:0\d|1\d|2[0-3])[0-5]\d(?:[0-5]\d)?)$""", RegexOptions.CultureInvariant)]
    private static partial Regex OffsetGrammar();
}
