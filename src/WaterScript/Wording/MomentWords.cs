using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;

namespace WaterScript.Wording;

/// <summary>How findings say dates and times: weekday first, in English, whatever the machine's language.</summary>
internal static class MomentWords
{
    /// <summary>Written out: a pattern of the library takes longer to be made than most programs here run.</summary>
    private static readonly string[] Weekdays = ["", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

    private static readonly string[] Months = ["", "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    /// <summary><c>Tue 15 Sep 2026</c></summary>
    public static string Date(LocalDate date) => $"{Weekdays[(int)date.DayOfWeek]} {PlainDate(date)}";

    /// <summary><c>15 Sep 2026</c></summary>
    public static string PlainDate(LocalDate date) => string.Create(CultureInfo.InvariantCulture, $"{PlainDay(date)} {date.Year:0000}");

    /// <summary><c>15 Sep</c></summary>
    public static string PlainDay(LocalDate date) => string.Create(CultureInfo.InvariantCulture, $"{date.Day} {Months[date.Month]}");

    /// <summary><c>Tue 15 Sep</c></summary>
    public static string DayOfYear(LocalDate date) => $"{Weekdays[(int)date.DayOfWeek]} {PlainDay(date)}";

    /// <summary><c>Tue 15</c></summary>
    public static string DayOfMonth(LocalDate date) => string.Create(CultureInfo.InvariantCulture, $"{Weekdays[(int)date.DayOfWeek]} {date.Day}");

    /// <summary><c>06:00</c>, with seconds only where there are some.</summary>
    public static string Time(LocalTime time) => time.Second == 0
        ? string.Create(CultureInfo.InvariantCulture, $"{time.Hour:00}:{time.Minute:00}")
        : string.Create(CultureInfo.InvariantCulture, $"{time.Hour:00}:{time.Minute:00}:{time.Second:00}");

    /// <summary><c>Tue 15 Sep 2026 06:00</c></summary>
    public static string Moment(LocalDateTime moment) => $"{Date(moment.Date)} {Time(moment.TimeOfDay)}";

    /// <summary><c>once</c>, <c>twice</c>, <c>7 times</c></summary>
    public static string Times(long count) => count switch
    {
        1 => "once",
        2 => "twice",
        _ => string.Create(CultureInfo.InvariantCulture, $"{count} times"),
    };

    /// <summary>
    /// When something happens, as a sentence: <c>Once, Sat 4 Jul 2026 20:15.</c>, <c>Twice: …</c>, or
    /// <c>First Mon 16 Mar 2026 07:00; 69 times; last Mon 28 Feb 2028 07:00.</c>
    /// </summary>
    public static string When(Occurrences occurrences)
    {
        ArgumentNullException.ThrowIfNull(occurrences);
        var (first, last) = (Say(occurrences.First, occurrences), Later(occurrences));
        return occurrences.Times switch
        {
            1 => $"Once, {first}.",
            2 => $"Twice: {first} and {last}.",
            _ when IsDaily(occurrences) =>
                $"First {first}; {HowOften(occurrences)}, daily, {(occurrences.IsStill ? "still so on" : "to")} {DayOf(occurrences)}.",
            _ => $"First {first}; {HowOften(occurrences)}; {(occurrences.IsStill ? "still so on" : "last")} {last}.",
        };
    }

    /// <summary><c>First Sat 4 Jul 2026 20:15; last Tue 7 Jul 20:40.</c></summary>
    public static string Range(LocalDateTime first, LocalDateTime last) =>
        first == last ? $"Once, {Moment(first)}." : $"First {Moment(first)}; last {Later(new Occurrences(first, last, Times: 2, Days: 2))}.";

    private static string HowOften(Occurrences occurrences) => occurrences.IsWholeDays || occurrences.Days == occurrences.Times
        ? Times(occurrences.Times)
        : $"{Times(occurrences.Times)} on {Phrases.Count(occurrences.Days, "day")}";

    /// <summary>Whether it happens on each date from the first to the last.</summary>
    private static bool IsDaily(Occurrences occurrences) =>
        occurrences.Days > 2 && (occurrences.IsWholeDays || occurrences.Times == occurrences.Days)
            && Period.DaysBetween(occurrences.First.Date, occurrences.Last.Date) == occurrences.Days - 1;

    /// <summary>The last time, without what it shares with the first: the date, or the year.</summary>
    private static string Later(Occurrences occurrences)
    {
        var (first, last) = (occurrences.First, occurrences.Last);
        if (!occurrences.IsWholeDays && first.Date == last.Date) return Time(last.TimeOfDay);
        return occurrences.IsWholeDays ? DayOf(occurrences) : $"{DayOf(occurrences)} {Time(last.TimeOfDay)}";
    }

    /// <summary>The last date, with its year only where that is not the first one's.</summary>
    private static string DayOf(Occurrences occurrences) =>
        occurrences.First.Year == occurrences.Last.Year ? DayOfYear(occurrences.Last.Date) : Date(occurrences.Last.Date);

    private static string Say(LocalDateTime moment, Occurrences occurrences) => occurrences.IsWholeDays ? Date(moment.Date) : Moment(moment);
}
