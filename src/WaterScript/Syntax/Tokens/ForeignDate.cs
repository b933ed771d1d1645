using System.Globalization;
using WaterScript.Language;

namespace WaterScript.Syntax.Tokens;

/// <summary>Dates as they are written elsewhere: <c>31.05.2026</c>, <c>5/31/2026</c>, <c>30.09.</c>, <c>2026/05/31</c>.</summary>
internal static class ForeignDate
{
    /// <summary>
    /// The date that can be meant, as the language writes it, or both where the day and the month may have changed places; null where it is none.
    /// </summary>
    public static string? Meant(string text)
    {
        var mark = text.FirstOrDefault(c => c is '.' or '/' or '-');
        int[] numbers = [.. text.TrimEnd('.').Split(mark)
            .Select(part => int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : -1)];
        return numbers switch
        {
            [>= 1900 and <= 2200 and var year, var month, var day] => InYear(year, day, month),
            [var first, var second, >= 1900 and <= 2200 and var year] => Either(mark, first, second, (day, month) => InYear(year, day, month)),
            [var first, var second] when mark == '.' || (mark == '/' && Math.Max(first, second) > 12) => Either(mark, first, second, Yearly),
            _ => null,
        };
    }

    /// <summary>Between points the day goes before the month everywhere; between other marks that is not the same everywhere.</summary>
    private static string? Either(char mark, int first, int second, Func<int, int, string?> written)
    {
        var (dayFirst, monthFirst) = (written(first, second), mark == '.' || first == second ? null : written(second, first));
        return dayFirst is null || monthFirst is null ? dayFirst ?? monthFirst : $"{dayFirst} or {monthFirst}, whichever is meant";
    }

    private static string? InYear(int year, int day, int month) =>
        month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            ? string.Create(CultureInfo.InvariantCulture, $"{year:0000}-{month:00}-{day:00}")
            : null;

    private static string? Yearly(int day, int month) =>
        month is >= 1 and <= 12 && day is >= 1 and <= 31 ? string.Create(CultureInfo.InvariantCulture, $"{day} {MonthNames.All[month - 1]}") : null;
}
