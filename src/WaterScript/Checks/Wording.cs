using System.Globalization;
using WaterScript.Model;

namespace WaterScript.Checks;

/// <summary>How findings say counts and lengths, in English, whatever the machine's language.</summary>
internal static class Wording
{
    /// <summary><c>1 run</c>, <c>7 runs</c></summary>
    public static string Count(long count, string thing) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {thing}{(count == 1 ? "" : "s")}");

    /// <summary>Says zones in a sentence, some of them by name: <c>Both want Lawn, Beds and 3 more.</c></summary>
    public static string Zones(string verb, IEnumerable<Zone> zones)
    {
        const int most = 6;
        string[] names = [.. zones.Select(zone => zone.DisplayName)];
        var more = names.Length > most ? string.Create(CultureInfo.InvariantCulture, $" and {names.Length - most} more") : "";
        return $"{verb} {string.Join(", ", names.Take(most))}{more}.";
    }

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
