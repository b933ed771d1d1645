using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;

namespace WaterScript.Checks;

/// <summary>How findings say dates, times and counts: weekday first, in English, whatever the machine's language.</summary>
internal static class Wording
{
    private static readonly LocalDatePattern DatePattern = LocalDatePattern.CreateWithInvariantCulture("ddd d MMM uuuu");
    private static readonly LocalDateTimePattern MomentPattern = LocalDateTimePattern.CreateWithInvariantCulture("ddd d MMM uuuu HH:mm");

    public static string Date(int day) => DatePattern.Format(CivilDate.FromDayNumber(day).ToLocalDate());

    public static string Moment(long instant, DateTimeZone zone) =>
        MomentPattern.Format(Instant.FromUnixTimeSeconds(instant).InZone(zone).LocalDateTime);

    /// <summary><c>once</c>, <c>twice</c>, <c>7 times</c></summary>
    public static string Times(int count) => count switch
    {
        1 => "once",
        2 => "twice",
        _ => string.Create(CultureInfo.InvariantCulture, $"{count} times"),
    };

    /// <summary><c>1 run</c>, <c>7 runs</c></summary>
    public static string Count(long count, string thing) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {thing}{(count == 1 ? "" : "s")}");

    /// <summary><c>2 h 5 min 10 s</c>, as a source writes it.</summary>
    public static string Length(long seconds)
    {
        var parts = new List<string>(3);
        if (seconds >= 3600) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600} h"));
        if (seconds / 60 % 60 > 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 60 % 60} min"));
        if (seconds % 60 > 0 || seconds == 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds % 60} s"));
        return string.Join(' ', parts);
    }

    /// <summary><c>on Sun 8 Mar 2026</c>, or how often, the first and the last.</summary>
    public static string When(DayNoteGroup group) => group.Count == 1
        ? $"On {Date(group.FirstDay)}."
        : $"On {Date(group.FirstDay)} for the first time, {Times(group.Count)}, last on {Date(group.LastDay)}.";
}
