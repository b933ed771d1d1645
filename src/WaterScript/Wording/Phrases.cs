using System.Globalization;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Wording;

/// <summary>How findings say counts and lengths, in English, whatever the machine's language.</summary>
internal static class Phrases
{
    /// <summary><c>1 run</c>, <c>7 runs</c></summary>
    /// <param name="count">How many.</param>
    /// <param name="one">The word for one.</param>
    /// <param name="many">The word for any other number, where it is not that with an s.</param>
    public static string Count(long count, string one, string? many = null) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many ?? one + "s")}");

    /// <summary>Zones in a sentence, some of them by name: <c>Both need zones lawn, beds and 3 more.</c></summary>
    internal static string Zones(string verb, IEnumerable<Zone> zones)
    {
        const int most = 6;
        string[] names = [.. zones.Select(zone => zone.Name)];
        var more = names.Length > most ? string.Create(CultureInfo.InvariantCulture, $" and {names.Length - most} more") : "";
        return $"{verb} {(names.Length == 1 ? "zone" : "zones")} {string.Join(", ", names.Take(most))}{more}.";
    }

    /// <summary>The number of an amount, without its unit: <c>26.0</c> of <c>26.0 L/min</c>.</summary>
    internal static string Bare(string amount) => amount[..amount.IndexOf(' ', StringComparison.Ordinal)];

    /// <summary><c>2 h 5 min 10 s</c>, as a source writes it.</summary>
    internal static string Length(long seconds)
    {
        var parts = new List<string>(3);
        if (seconds >= 3600) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600} h"));
        if (seconds / 60 % 60 > 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 60 % 60} min"));
        if (seconds % 60 > 0 || seconds == 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds % 60} s"));
        return string.Join(' ', parts);
    }

    /// <summary><c>26.0 L/min</c>: a number in the base unit of its dimension, said in another unit of it.</summary>
    /// <param name="inBase">The number.</param>
    /// <param name="unit">The unit to say it in.</param>
    /// <param name="digits">Digits after the point.</param>
    internal static string Amount(decimal inBase, Unit unit, int digits) =>
        $"{Number(inBase * unit.Denominator / unit.Numerator, digits)} {unit.Symbol}";

    /// <summary><c>41.28</c>: a number with so many digits after the point.</summary>
    internal static string Number(decimal value, int digits) => value.ToString($"F{digits}", CultureInfo.InvariantCulture);

    /// <summary><c>80 %</c>, <c>200.1 %</c></summary>
    internal static string Percent(decimal percent) => string.Create(CultureInfo.InvariantCulture, $"{percent:0.###} %");

    /// <summary>The name of a month, 1 to 12.</summary>
    internal static string Month(int month) => CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(month);

    /// <summary>Names one after the other, of many only the first: <c>lawn, beds, herbs and 5 more</c>.</summary>
    internal static string Names(IReadOnlyList<string> names, int most = 8) => names.Count <= most
        ? string.Join(", ", names)
        : string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", names.Take(most - 1))} and {names.Count - most + 1} more");
}
