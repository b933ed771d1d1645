using System.Globalization;
using System.Text;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using WaterScript.Documents.ICalendar;
using WaterScript.Model;
using WaterScript.Timetables;
using Xunit;
using Calendar = Ical.Net.Calendar;

namespace WaterScript.Tests.Documents.ICalendar;

/// <summary>Calendars of sites, and what they say: as Ical.Net expands them, and as the timetable has it.</summary>
internal static class Calendars
{
    /// <summary>The stamp of calendars in tests.</summary>
    public static readonly CalendarOptions Plain = new(Instant.FromUtc(2026, 1, 1, 0, 0)) { HasEndNotice = false, Title = "{label}" };

    /// <summary>The file.</summary>
    public static string Write(Timetable timetable, CalendarOptions options)
    {
        var output = new MemoryStream();
        CalendarFile.Of(timetable, options).Write(output);
        return Encoding.UTF8.GetString(output.ToArray());
    }

    /// <summary>The events of a file.</summary>
    public static IEnumerable<CalendarEvent> Events(string file) => Calendar.Load(file)!.Events;

    /// <summary>Start and end of each event that starts before an instant, as Ical.Net expands the file, in order.</summary>
    public static List<(long Start, long End)> Expand(string file, long until)
    {
        var end = new CalDateTime(Instant.FromUnixTimeSeconds(until).ToDateTimeUtc(), "UTC");
        return [.. Events(file)
            .SelectMany(one => one.GetOccurrences().TakeWhile(occurrence => occurrence.Period.StartTime.LessThan(end)))
            .Select(occurrence => (Seconds(occurrence.Period.StartTime), Seconds(occurrence.Period.EffectiveEndTime!)))
            .Order()];
    }

    /// <summary>Start of each pass and end of its last run, from the runs of the timetable, in order.</summary>
    public static List<(long Start, long End)> Passes(Timetable timetable) => [.. timetable.Runs()
        .GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass, run.PassStart))
        .Select(pass => (pass.Key.PassStart, pass.Max(run => run.End)))
        .Order()];

    /// <summary>First start and last end of each step of a pass.</summary>
    public static List<(long Start, long End)> Steps(Timetable timetable) => [.. timetable.Runs()
        .GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass, Step: timetable.StepPath(run)))
        .Select(step => (step.Min(run => run.Start), step.Max(run => run.End)))
        .Order()];

    /// <summary>First start and last end of the passes of a date.</summary>
    public static List<(long Start, long End)> Dates(Timetable timetable) => [.. timetable.Runs()
        .GroupBy(run => (run.Schedule, run.Day))
        .Select(date => (date.Min(run => run.PassStart), date.Max(run => run.End)))
        .Order()];

    /// <summary>What a calendar has to show.</summary>
    public static List<(long Start, long End)> Expected(Timetable timetable, EventUnit unit) => unit switch
    {
        EventUnit.Step => Steps(timetable),
        EventUnit.Day => Dates(timetable),
        _ => Passes(timetable),
    };

    /// <summary>Compares the calendar of a timetable with it.</summary>
    /// <returns>The file; empty where the timetable is.</returns>
    public static string Agrees(Site site, Horizon horizon, CalendarOptions options, string name)
    {
        var timetable = Timetable.Of(site, horizon);
        var expected = Expected(timetable, options.Unit ?? EventUnit.Pass);
        if (expected.Count == 0)
        {
            Assert.True(CalendarFile.Of(timetable, options).IsEmpty);
            return "";
        }

        var file = Write(timetable, options);
        var end = horizon.Until.AtStartOfDayInZone(site.TimeZone).ToInstant().ToUnixTimeSeconds();
        var actual = Expand(file, end);
        expected.RemoveAll(one => one.Start >= end);
        if (!expected.SequenceEqual(actual))
        {
            Assert.Fail(
                $"{name}\nmissing {Times(expected.Except(actual))}\nextra {Times(actual.Except(expected))}\n{expected.Count} expected, {actual.Count} there\n"
                    + $"{file[..Math.Min(file.Length, 3_000)]}");
        }

        Assert.Equal(file.Split("\r\nUID:").Length - 1, file.Split("\r\nUID:").Skip(1).Select(rest => rest[..36]).Distinct().Count());
        return file;
    }

    private static string Times(IEnumerable<(long Start, long End)> events) => string.Join(
        ", ", events.Take(8).Select(one =>
            string.Create(CultureInfo.InvariantCulture, $"{Instant.FromUnixTimeSeconds(one.Start)} for {one.End - one.Start} s")));

    private static long Seconds(CalDateTime time) => new DateTimeOffset(time.AsUtc, TimeSpan.Zero).ToUnixTimeSeconds();
}
