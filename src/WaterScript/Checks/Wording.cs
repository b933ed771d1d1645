using System.Globalization;

namespace WaterScript.Checks;

/// <summary>How findings say counts and lengths, in English, whatever the machine's language.</summary>
internal static class Wording
{
    /// <summary><c>1 run</c>, <c>7 runs</c></summary>
    public static string Count(long count, string thing) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {thing}{(count == 1 ? "" : "s")}");

    /// <summary><c>2 h 5 min 10 s</c>, as a source writes it.</summary>
    public static string Length(long seconds)
    {
        var parts = new List<string>(3);
        if (seconds >= 3600) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600} h"));
        if (seconds / 60 % 60 > 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 60 % 60} min"));
        if (seconds % 60 > 0 || seconds == 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds % 60} s"));
        return string.Join(' ', parts);
    }
}
