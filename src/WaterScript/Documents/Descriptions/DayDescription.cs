using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Documents.Writers;
using WaterScript.Model;

namespace WaterScript.Documents.Descriptions;

/// <summary>A set of days as a map of one line, whose keys say what kind of set it is.</summary>
internal static class DayDescription
{
    private static readonly (Weekdays Day, string Word)[] Words =
    [
        (Weekdays.Monday, "mon"), (Weekdays.Tuesday, "tue"), (Weekdays.Wednesday, "wed"), (Weekdays.Thursday, "thu"),
        (Weekdays.Friday, "fri"), (Weekdays.Saturday, "sat"), (Weekdays.Sunday, "sun"),
    ];

    /// <summary>Writes the entries of a set.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="days">The set.</param>
    /// <param name="countedFrom">What intervals are counted from: a date, or <c>season</c>.</param>
    public static void Write(DocumentWriter writer, DaySet days, string countedFrom)
    {
        switch (days)
        {
            case WeekdayDays weekdays:
                WriteWeekdays(writer, weekdays.Days);
                break;
            case OddEvenDays parity:
                writer.Entry("days_of_month", parity.IsOdd ? "odd" : "even");
                break;
            case MonthDays month:
                writer.List("days_of_month", month.Days, day => writer.Number(day));
                break;
            case LastDayOfMonth:
                writer.Entry("days_of_month", "last");
                break;
            case NthWeekday nth:
                WriteWeekdays(writer, (Weekdays)(1 << ((int)nth.Day - 1)));
                writer.Entry("nth_of_month", nth.Nth);
                break;
            case DateRange range:
                writer.Entry("from", LocalDatePattern.Iso.Format(range.First));
                if (range.Last != LocalDate.MaxIsoValue) writer.Entry("to", LocalDatePattern.Iso.Format(range.Last));
                break;
            case YearlyRange range:
                writer.Entry("yearly_from", Text(range.First));
                writer.Entry("yearly_to", Text(range.Last));
                break;
            case YearlySpan span:
                writer.Entry("yearly_from", Text(span.First));
                writer.Entry("length_days", span.Length);
                break;
            case YearlyDay yearly:
                writer.Entry("yearly_on", Text(yearly.Day));
                break;
            case IntervalDays interval:
                writer.Entry("every_days", interval.PeriodDays);
                if (interval.On is { } on) WriteWeekdays(writer, on);
                writer.Entry("counted_from", interval.Anchor is { } anchor ? LocalDatePattern.Iso.Format(anchor) : countedFrom);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(days), days, "a set of days that no output describes");
        }
    }

    private static void WriteWeekdays(DocumentWriter writer, Weekdays days) =>
        writer.List("weekdays", Words.Where(word => days.HasFlag(word.Day)), word => writer.Text(word.Word));

    /// <summary><c>12-25</c>, or <c>02-last</c>.</summary>
    internal static string Text(YearDay day) => day.IsLast
        ? string.Create(CultureInfo.InvariantCulture, $"{day.Month:00}-last")
        : string.Create(CultureInfo.InvariantCulture, $"{day.Month:00}-{day.Day:00}");
}
