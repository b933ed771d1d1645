using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Diagnostics;

namespace WaterScript.Wording;

/// <summary>How findings say dates and times: weekday first, in English, whatever the machine's language.</summary>
internal static class MomentWords
{
    private static readonly LocalDatePattern DatePattern = LocalDatePattern.CreateWithInvariantCulture("ddd d MMM uuuu");
    private static readonly LocalTimePattern MinutePattern = LocalTimePattern.CreateWithInvariantCulture("HH:mm");
    private static readonly LocalTimePattern SecondPattern = LocalTimePattern.CreateWithInvariantCulture("HH:mm:ss");

    /// <summary><c>Tue 15 Sep 2026</c></summary>
    public static string Date(LocalDate date) => DatePattern.Format(date);

    /// <summary><c>06:00</c>, with seconds only where there are some.</summary>
    public static string Time(LocalTime time) => (time.Second == 0 ? MinutePattern : SecondPattern).Format(time);

    /// <summary><c>Tue 15 Sep 2026 06:00</c></summary>
    public static string Moment(LocalDateTime moment) => $"{Date(moment.Date)} {Time(moment.TimeOfDay)}";

    /// <summary><c>once</c>, <c>twice</c>, <c>7 times</c></summary>
    public static string Times(long count) => count switch
    {
        1 => "once",
        2 => "twice",
        _ => string.Create(CultureInfo.InvariantCulture, $"{count} times"),
    };

    /// <summary>When something happens, as a sentence: the first time, how often, the last time.</summary>
    public static string When(Occurrences occurrences)
    {
        ArgumentNullException.ThrowIfNull(occurrences);
        var first = Say(occurrences.First, occurrences);
        if (occurrences.Times == 1) return $"On {first}.";
        var days = occurrences.IsWholeDays || occurrences.Days == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $" on {occurrences.Days} days");
        return $"On {first} for the first time, {Times(occurrences.Times)}{days}, last on {Say(occurrences.Last, occurrences)}.";
    }

    private static string Say(LocalDateTime moment, Occurrences occurrences) => occurrences.IsWholeDays ? Date(moment.Date) : Moment(moment);
}
