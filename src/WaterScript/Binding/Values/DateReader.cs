using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>Dates: of one year, or of every year.</summary>
/// <param name="scope">Where findings go.</param>
/// <param name="source">The file.</param>
internal sealed class DateReader(Scope scope, SourceText source)
{
    private const int FirstYear = 1900;
    private const int LastYear = 2200;

    /// <summary>The longest month of each.</summary>
    private static readonly int[] MonthLengths = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

    /// <summary>The months as the language writes them, January first.</summary>
    public static IReadOnlyList<string> Months { get; } = MonthNames.All;

    /// <summary>A date as written in ISO 8601; null, and reported, when there is no such date.</summary>
    public static LocalDate? Iso(string text, Location location, Scope scope)
    {
        var parts = text.Split('-');
        if (parts.Length != 3 || !int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var year)
            || !int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var month)
            || !int.TryParse(parts[2], NumberStyles.None, CultureInfo.InvariantCulture, out var day))
        {
            scope.Report(ReadingRules.OutOfRange, location, $"\"{text}\" is not a date", help: "Write year, month and day, such as `2026-05-01`.");
            return null;
        }

        if (year is >= FirstYear and <= LastYear && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month))
            return new LocalDate(year, month, day);
        scope.Report(ReadingRules.OutOfRange, location, $"there is no date {text}", ReasonAgainst(year, month),
            "Write year, month and day, such as `2026-05-01`.");
        return null;
    }

    /// <summary>A date of one year, calculated if need be; null, and reported, when it is none.</summary>
    public LocalDate? Dated(DateNode node)
    {
        if (node.Base is MonthDayNode)
        {
            scope.Report(ReadingRules.OutOfRange, At(node.Span), $"{source.Slice(node.Span)} has no year",
                help: "Write a date with its year, such as `2026-05-01`.");
            return null;
        }

        LocalDate? start = node.Base switch
        {
            IsoDateNode iso => Iso(iso.Text, At(iso.Span), scope),
            LetDateNode let => Named(let),
            _ => null,
        };
        if (start is not { } date) return null;
        if (node.Offset is null) return date;
        if (OffsetDays(node.Offset) is not { } days) return null;
        return Shifted(date, node.IsBefore ? -days : days, At(node.Span), scope);
    }

    /// <summary>A date so many days after another; null, and reported, when it lies too far away.</summary>
    public static LocalDate? Shifted(LocalDate date, int days, Location location, Scope scope)
    {
        var calculated = date.PlusDays(days);
        if (calculated.Year is >= FirstYear and <= LastYear) return calculated;
        scope.Report(ReadingRules.OutOfRange, location, "this date lies too far away", $"must be in {FirstYear} to {LastYear}");
        return null;
    }

    /// <summary>Whether a date is one of every year.</summary>
    public static bool IsYearly(DateNode node) => node.Base is MonthDayNode;

    /// <summary>A day of every year; null, and reported, when there is no such day.</summary>
    public YearDay? Yearly(DateNode node)
    {
        if (node.Base is not MonthDayNode day)
        {
            scope.Report(ReadingRules.Contradiction, At(node.Span), "one end has a year, the other has none",
                help: "Write both with a year, or both without.");
            return null;
        }

        if (node.Offset is not null)
        {
            scope.Report(ReadingRules.OutOfRange, At(node.Offset.Span), "only a date with a year can be counted on from");
            return null;
        }

        var month = Months.ToList().IndexOf(day.Month.Text) + 1;
        if (month == 0)
        {
            scope.ReportUnknown(At(day.Month.Span), $"no month is called \"{day.Month.Text}\"", day.Month.Text, Months);
            return null;
        }

        if (day.Day is null) return new YearDay(month, 0);
        if (day.Day.Value >= 1 && day.Day.Value <= MonthLengths[month - 1] && day.Day.Value == decimal.Truncate(day.Day.Value))
            return new YearDay(month, (int)day.Day.Value);
        scope.Report(ReadingRules.OutOfRange, At(node.Span), $"there is no day {source.Slice(node.Span)}",
            $"{day.Month.Text} has {MonthLengths[month - 1]} days", $"Write last {day.Month.Text} for its last day, or another day of it.");
        return null;
    }

    /// <summary>A number of days: a row of whole days or weeks.</summary>
    public int? OffsetDays(RowNode row)
    {
        var cursor = new RowCursor(scope, source, row, "2 weeks");
        if (cursor.Quantity(Dimension.Time, Bounds.Positive) is not { } length) return null;
        cursor.End();
        if (cursor.HasFailed) return null;
        var days = length.InBase / Units.Day.Numerator;
        if (days == decimal.Truncate(days)) return (int)days;
        scope.Report(ReadingRules.OutOfRange, At(row.Span), $"{source.Slice(row.Span)} is not a whole number of days",
            "dates count in whole days or weeks");
        return null;
    }

    private LocalDate? Named(LetDateNode node)
    {
        if (scope.Lets.Use(node.Name) is not { } let)
        {
            if (KnownTypos.Month(node.Name) is { } month)
                scope.Report(ReadingRules.Missing, At(node.Span), $"{month} without its day",
                    help: $"Write the day before it, such as `1 {month}`, or `last {month}` for its last day.");
            else if (scope.NamedDays.Contains(node.Name))
                scope.Report(ReadingRules.Contradiction, At(node.Span), $"{node.Name} is a list of days, and one date is needed here", help: "Write a date.");
            else scope.ReportUnknown(At(node.Span), $"no date is called \"{node.Name}\"", node.Name, scope.Lets.Names);
            return null;
        }

        if (let.Quantity is not null) scope.Report(ReadingRules.OutOfRange, At(node.Span), $"\"{node.Name}\" is a quantity, not a date");
        return let.Date;
    }

    private static string ReasonAgainst(int year, int month)
    {
        if (year is < FirstYear or > LastYear) return $"years go from {FirstYear} to {LastYear}";
        return month is < 1 or > 12 ? "months go from 01 to 12" : $"{Months[month - 1]} {year} has {DateTime.DaysInMonth(year, month)} days";
    }

    private Location At(TextSpan span) => new(source, span);
}
