using NodaTime;

namespace WaterScript.Binding;

/// <summary>The version of time-zone data.</summary>
internal static class TimeZoneVersion
{
    private const string Tzdb = "TZDB: ";
    private const int Longest = 40;

    /// <summary><c>2026a</c>; of a provider that is not of the IANA's data, what it calls itself, as letters, digits and few signs.</summary>
    public static string Of(IDateTimeZoneProvider provider)
    {
        ArgumentNullException.ThrowIfNull(provider);
        var id = provider.VersionId;
        if (id.StartsWith(Tzdb, StringComparison.Ordinal)) id = id[Tzdb.Length..].Split(' ')[0];
        return string.Concat(id.Take(Longest).Select(letter => char.IsAsciiLetterOrDigit(letter) || letter is '.' or '-' or '+' ? letter : '-'));
    }
}
