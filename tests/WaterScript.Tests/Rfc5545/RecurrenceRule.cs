using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;

namespace WaterScript.Tests.Rfc5545;

/// <summary>A rule (RFC 5545, 3.3.10) of the kinds that repeat by days; the finer ones are taken for mistakes.</summary>
internal sealed partial class RecurrenceRule
{
    private static readonly string[] Weekdays = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];
    private readonly Dictionary<string, string[]> _parts = new(StringComparer.Ordinal);
    private readonly int _line;

    private RecurrenceRule(int line) => _line = line;

    /// <summary>The last moment, as written.</summary>
    public string? Until => _parts.TryGetValue("UNTIL", out var values) ? values[0] : null;

    public bool HasWeekStart => _parts.ContainsKey("WKST");

    public string Frequency => _parts["FREQ"][0];

    public IReadOnlyCollection<string> Names => _parts.Keys;

    public static RecurrenceRule Of(ContentLine line)
    {
        if (line.Parameters.Count > 0) throw new Malformed(line.Number, "RRULE has a parameter");
        var rule = new RecurrenceRule(line.Number);
        foreach (var part in line.Value.Split(';')) rule.Add(part);
        rule.Check();
        return rule;
    }

    /// <summary>Whether a date that the rule counts from is one of its own.</summary>
    public bool Has(LocalDate date) =>
        Numbers("BYMONTH").All(numbers => numbers.Contains(date.Month))
        && Numbers("BYMONTHDAY").All(numbers => numbers.Any(day => (day > 0 ? day : date.Calendar.GetDaysInMonth(date.Year, date.Month) + 1 + day) == date.Day))
        && (!_parts.TryGetValue("BYDAY", out var days) || days.Any(day => IsDay(day, date)))
        && Numbers("BYSETPOS").All(numbers => numbers.Any(nth => IsDay(string.Create(CultureInfo.InvariantCulture, $"{nth}{days![0]}"), date)));

    private void Add(string part)
    {
        var match = Grammar().Match(part);
        if (!match.Success) throw new Malformed(_line, $"{part} is no part of a rule");
        if (!_parts.TryAdd(match.Groups["name"].Value, match.Groups["values"].Value.Split(','))) throw new Malformed(_line,
            $"{part} is the second of its kind");
    }

    private void Check()
    {
        if (!_parts.ContainsKey("FREQ")) throw new Malformed(_line, "a rule without FREQ");
        if (_parts.ContainsKey("UNTIL") && _parts.ContainsKey("COUNT")) throw new Malformed(_line, "both UNTIL and COUNT");
        if (Until is { } until) Values.Time(_line, until);
        if (_parts.ContainsKey("BYSETPOS") && (Frequency != "MONTHLY" || _parts.GetValueOrDefault("BYDAY") is not [{ Length: 2 }]))
            throw new Malformed(_line, "a position of other days than of one weekday in a month");
        if (_parts.ContainsKey("BYMONTHDAY") && Frequency == "WEEKLY") throw new Malformed(_line, "BYMONTHDAY in a weekly rule");
        if (_parts.TryGetValue("BYDAY", out var days) && days.Any(day => day.Length > 2) && Frequency is "DAILY" or "WEEKLY") throw new Malformed(_line,
            "an nth weekday in a daily or weekly rule");
        foreach (var (name, least, most) in new[]
        {
            ("BYMONTH", 1, 12), ("BYMONTHDAY", -31, 31), ("BYSETPOS", -1, 4), ("INTERVAL", 1, int.MaxValue), ("COUNT", 1, int.MaxValue),
        })
        {
            if (Numbers(name).Any(numbers => numbers.Any(number => number < least || number > most || number == 0))) throw new Malformed(_line,
                $"{name} is out of range");
        }
    }

    /// <summary>The numbers of a part; none where it does not stand.</summary>
    private IEnumerable<int[]> Numbers(string part)
    {
        if (_parts.TryGetValue(part, out var values)) yield return [.. values.Select(value => int.Parse(value, CultureInfo.InvariantCulture))];
    }

    private bool IsDay(string day, LocalDate date)
    {
        if (Array.IndexOf(Weekdays, day[^2..]) + 1 != (int)date.DayOfWeek) return false;
        if (day.Length == 2) return true;
        var nth = int.Parse(day[..^2], CultureInfo.InvariantCulture);
        var isInMonth = Frequency == "MONTHLY" || _parts.ContainsKey("BYMONTH");
        var (position, length) = isInMonth
            ? (date.Day, date.Calendar.GetDaysInMonth(date.Year, date.Month))
            : (date.DayOfYear, date.Calendar.GetDaysInYear(date.Year));
        return nth == (nth > 0 ? ((position - 1) / 7) + 1 : -(((length - position) / 7) + 1));
    }

    [GeneratedRegex(
        """^(?:(?<name>FREQ)=(?<values>DAILY|WEEKLY|MONTHLY|YEARLY)|(?<name>UNTIL)=(?<values>[0-9TZ]+)"""
            + """|(?<name>COUNT|INTERVAL)=(?<values>[0-9]{1,9})"""
            + """|(?<name>BYDAY)=(?<values>(?:(?:[+-]?[0-9]{1,2})?(?:MO|TU|WE|TH|FR|SA|SU)(?:,(?!$)|$))+)"""
            + """|(?<name>BYMONTH|BYMONTHDAY|BYSETPOS)=(?<values>(?:-?[0-9]{1,2}(?:,(?!$)|$))+)|(?<name>WKST)=(?<values>MO|TU|WE|TH|FR|SA|SU))$""",
        RegexOptions.CultureInvariant)]
    private static partial Regex Grammar();
}
