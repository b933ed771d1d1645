using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Documents.ICalendar;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary>What a calendar came to, in words for people.</summary>
internal static class CalendarVerdict
{
    /// <summary>What was written, and until when.</summary>
    public static string Of(CalendarFile calendar, Timetable timetable)
    {
        var parts = new List<string>(2);
        if (calendar.Series > 0) parts.Add(Phrases.Count(calendar.Series, "series", "series"));
        if (calendar.SingleEvents > 0) parts.Add(Phrases.Count(calendar.SingleEvents, "single event"));
        var text = $"{timetable.Site.DisplayName}: {string.Join(" and ", parts)}.";
        if (calendar.IsCut)
            text += $" Shown to {LastDay(timetable)}; what goes on after that needs a later --until{NamesOfCut(calendar)}.";
        if (calendar.SingleEvents > Limits.FlatEventsWithoutNote)
            text += " Calendar apps take some milliseconds for each single event: expect them to be slow.";
        return text;
    }

    private static string NamesOfCut(CalendarFile calendar) =>
        calendar.IsAllCut ? "" : $": {string.Join(", ", calendar.Cut.Select(schedule => schedule.Name))}";

    /// <summary>The dates of a timetable: <c>from 1 Mar 2026 to 28 Feb 2027</c>.</summary>
    public static string Days(Timetable timetable) => $"from {MomentWords.PlainDate(timetable.Horizon.From)} to {LastDay(timetable)}";

    private static string LastDay(Timetable timetable) => MomentWords.PlainDate(timetable.Horizon.Until.PlusDays(-1));

    /// <summary>Why so many events are refused.</summary>
    public static string TooLarge(CalendarFile calendar, CalendarOptions options)
    {
        var ways = options switch
        {
            { IsFlat: true, Unit: EventUnit.Day } => "choose fewer days, leave out --flat",
            { IsFlat: true } => "choose fewer days, --events day, leave out --flat",
            _ => "choose fewer days, --events day",
        };
        return string.Create(CultureInfo.InvariantCulture,
            $"{calendar.SingleEvents} single events are more than the {Limits.FlatEvents} that calendar apps bear; {ways}, or write them all the same with " +
            $"--despite-size");
    }
}
