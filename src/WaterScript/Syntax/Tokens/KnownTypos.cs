using System.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>
/// What people write in place of the language's own form and what is meant by it. The compiler understands these and says
/// once how they are written here; what it must not guess stands in <see cref="Mistakes"/>.
/// </summary>
internal static class KnownTypos
{
    private static readonly Dictionary<string, string> UnitWords = Table(
        ("s", "sec secs second seconds"),
        ("ms", "msec millisecond milliseconds"),
        ("min", "mins minute minutes"),
        ("h", "hr hrs hour hours"),
        ("L", "litre litres liter liters"),
        ("L/min", "lpm LPM l/minute L/minute litres/min liters/min"),
        ("L/h", "lph LPH l/hour L/hour L/hr l/hr"),
        ("m3/h", "m3/hour m3/hr cbm/h"),
        ("gpm", "GPM gal/min"),
        ("gph", "GPH gal/h"),
        ("HCF", "hcf ccf CCF"),
        ("kgal", "Kgal KGAL"),
        ("gal", "gals gallon gallons"),
        ("mm", "millimetre millimetres millimeter millimeters"),
        ("cm", "centimetre centimetres centimeter centimeters"),
        ("m", "metre metres meter meters"),
        ("in", "inch inches"),
        ("ft", "foot feet"),
        ("m2", "sqm"),
        ("ft2", "sqft"),
        ("acre", "acres"),
        ("ha", "hectare hectares"),
        ("mm/h", "mm/hour mm/hr"),
        ("in/h", "in/hour in/hr"),
        ("Ah", "ah AH"),
        ("mAh", "mah MAH mAH"),
        ("V", "volt volts"),
        ("A", "amp amps ampere amperes"),
        ("W", "watt watts"),
        ("kW", "kilowatt kilowatts kw KW Kw"),
        ("ohm", "ohms"),
        ("%", "percent"));

    private static readonly Dictionary<string, string> WeekdayWords = Table(
        ("mon", "monday mondays mo"),
        ("tue", "tuesday tuesdays tues tu"),
        ("wed", "wednesday wednesdays weds we"),
        ("thu", "thursday thursdays thur thurs th"),
        ("fri", "friday fridays fr"),
        ("sat", "saturday saturdays sa"),
        ("sun", "sunday sundays su"));

    private static readonly Dictionary<string, string> MonthWords = Table(
        ("jan", "january"),
        ("feb", "february febr"),
        ("mar", "march"),
        ("apr", "april"),
        ("may", ""),
        ("jun", "june"),
        ("jul", "july"),
        ("aug", "august"),
        ("sep", "september sept"),
        ("oct", "october"),
        ("nov", "november"),
        ("dec", "december"));

    /// <summary>What is said of days and times in other words. It is answered and not rewritten: a weekend is not the same everywhere.</summary>
    private static readonly Dictionary<string, string> Sayings = Table(
        ("every day", "daily everyday nightly"),
        ("pause", "wait"),
        ("water", "irrigate"),
        ("mon to fri", "weekday weekdays workday workdays"),
        ("sat, sun", "weekend weekends"),
        ("12:00", "noon midday"),
        ("00:00", "midnight"),
        ("sunrise", "dawn"),
        ("sunset", "dusk"));

    /// <summary>How a word for days or a time is written here; null for any other word.</summary>
    public static string? Saying(string word) => Sayings.TryGetValue(word, out var form) && form != word ? form : null;

    /// <summary>The unit that is meant by a word after a number, or null where it is the language's own or none.</summary>
    public static string? Unit(string word) => UnitWords.TryGetValue(word, out var unit) && unit != word ? unit : null;

    /// <summary><c>mon</c> for <c>mon</c>, <c>Mon</c>, <c>Monday</c>; null for what is no day of the week.</summary>
    public static string? Weekday(string word) => WeekdayWords.GetValueOrDefault(word.ToLowerInvariant());

    /// <summary>The two days of <c>mon-fri</c>, with a hyphen or a dash; null for what is no such pair.</summary>
    public static (string First, string Last)? WeekdayRange(string word)
    {
        var parts = word.Split('-', '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2015', '\u2212');
        return parts.Length == 2 && Weekday(parts[0]) is { } first && Weekday(parts[1]) is { } last ? (first, last) : null;
    }

    /// <summary><c>dec</c> for <c>dec</c>, <c>Dec</c>, <c>December</c>; null for what is no month.</summary>
    public static string? Month(string word) => MonthWords.GetValueOrDefault(word.ToLowerInvariant());

    /// <summary>Whether a word is <c>am</c> or <c>pm</c>, and which.</summary>
    public static bool IsHalfOfDay(string word, out bool afternoon)
    {
        afternoon = word is "pm" or "PM" or "Pm";
        return afternoon || word is "am" or "AM" or "Am";
    }

    /// <summary>A word without the characters for which the language has letters: <c>m2</c> for <c>m²</c>, <c>uF</c> for <c>µF</c>.</summary>
    public static string Plain(string word) => Ascii.IsValid(word) ? word : word
        .Replace("\u00B2", "2", StringComparison.Ordinal)
        .Replace("\u00B3", "3", StringComparison.Ordinal)
        .Replace("\u00B5", "u", StringComparison.Ordinal)
        .Replace("\u03BC", "u", StringComparison.Ordinal)
        .Replace("\u03A9", "ohm", StringComparison.Ordinal)
        .Replace("\u2126", "ohm", StringComparison.Ordinal)
        .Replace("\u00B0C", "C", StringComparison.Ordinal)
        .Replace("\u00B0F", "F", StringComparison.Ordinal);

    private static Dictionary<string, string> Table(params (string Meant, string Written)[] rows) =>
        rows.SelectMany(row => row.Written.Split(' ', StringSplitOptions.RemoveEmptyEntries).Append(row.Meant).Select(word => (word, row.Meant)))
            .ToDictionary(pair => pair.word, pair => pair.Meant, StringComparer.Ordinal);
}
