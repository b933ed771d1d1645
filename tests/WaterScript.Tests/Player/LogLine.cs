using System.Globalization;

namespace WaterScript.Tests.Player;

/// <summary>A line of what the player prints.</summary>
/// <param name="At">When, in milliseconds of Unix time.</param>
/// <param name="Output">Number of the output; 0 on a line about the device.</param>
/// <param name="Do"><c>open</c>, <c>close</c>, <c>boot</c> or <c>rest</c>.</param>
/// <param name="Polarity">Of the pulse.</param>
/// <param name="PulseMs">Length of the pulse.</param>
/// <param name="Why"><c>list</c>, <c>power-up</c>, <c>join</c>, <c>guard</c>, or why it rests.</param>
/// <param name="Opening">Number of the opening.</param>
/// <param name="List">How the hash of the list begins.</param>
internal sealed record LogLine(long At, int Output, string Do, string Polarity, string PulseMs, string Why, string Opening, string List)
{
    private const string Header = "time,controller,output,do,polarity,pulse_ms,why,opening,list";

    /// <summary>Reads what the player prints.</summary>
    /// <exception cref="FormatException">It is not a log.</exception>
    public static List<LogLine> Read(string text)
    {
        var lines = text.TrimEnd('\n').Split('\n');
        return lines[0] == Header ? [.. lines.Skip(1).Select(line => Of(line.Split(',')))] : throw new FormatException(text);
    }

    /// <summary>Outputs that are open after all of it.</summary>
    public static SortedSet<int> OpenAfter(IEnumerable<LogLine> lines)
    {
        SortedSet<int> open = [];
        foreach (var line in lines)
        {
            if (line.Do == "open") open.Add(line.Output);
            else if (line.Do == "close") open.Remove(line.Output);
        }

        return open;
    }

    /// <summary>The line in short: <c>7.500 2 open list</c>, the time in seconds after another.</summary>
    public string Short(long after = 0) =>
        string.Create(CultureInfo.InvariantCulture, $"{(At - (after * 1000m)) / 1000:0.000} {(Output > 0 ? $"{Output} " : "")}{Do} {Why}").TrimEnd();

    private static LogLine Of(string[] fields) => new(
        (long)(decimal.Parse(fields[0], CultureInfo.InvariantCulture) * 1000),
        fields[2].Length > 0 ? int.Parse(fields[2], CultureInfo.InvariantCulture) : 0,
        fields[3],
        fields[4],
        fields[5],
        fields[6],
        fields[7],
        fields[8]);
}
