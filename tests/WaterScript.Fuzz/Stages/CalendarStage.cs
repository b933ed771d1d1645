using WaterScript.Documents.ICalendar;
using WaterScript.Tests.Rfc5545;
using WaterScript.Timetables;

namespace WaterScript.Fuzz.Stages;

/// <summary>The calendar, with rules and without, read by the strict reader of the tests; without rules its events are the passes of the timetable.</summary>
internal sealed class CalendarStage : IStage
{
    public string Name => "calendar";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is not { } sound) return false;
        var stamp = sound.Effective.AtMidnight().InUtc().ToInstant();
        Read(site.Timetable, new CalendarOptions(stamp) { IsOpenEnded = site.Salt % 2 == 0, Unit = Unit(site.Salt) });
        var flat = Read(site.Timetable, new CalendarOptions(stamp) { IsFlat = true, Unit = EventUnit.Pass });
        var passes = Passes(site.Timetable);
        Must.Equal(string.Join(' ', passes), flat is null ? "" : string.Join(' ', Events(flat)),
            "the events of a flat calendar are the passes of the timetable");
        return true;
    }

    private static EventUnit? Unit(int salt) => (salt % 4) switch { 0 => EventUnit.Pass, 1 => EventUnit.Step, 2 => EventUnit.Day, _ => null };

    /// <summary>The calendar as it is read back; null where there is nothing in it.</summary>
    private static StrictCalendar? Read(Timetable timetable, CalendarOptions options)
    {
        var file = CalendarFile.Of(timetable, options);
        if (file.IsEmpty) return null;
        using var stream = new MemoryStream();
        file.Write(stream);
        try
        {
            return StrictCalendar.Read(stream.ToArray());
        }
        catch (Malformed problem)
        {
            throw new BrokenException("a calendar is one by RFC 5545", problem.Message);
        }
    }

    /// <summary>Start of each pass and end of its last run, in Unix seconds.</summary>
    private static IEnumerable<(long, long)> Passes(Timetable timetable) => timetable.Runs()
        .GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass, run.PassStart))
        .Select(pass => (pass.Key.PassStart, pass.Max(run => run.End)))
        .Order();

    private static IEnumerable<(long, long)> Events(StrictCalendar calendar) => calendar.Events
        .Where(one => one.The("DTSTART").Parameters.GetValueOrDefault("VALUE") != "DATE") // the notice that the calendar ends
        .Select(one => (Seconds(one.The("DTSTART")), Seconds(one.The("DTEND"))))
        .Order();

    private static long Seconds(ContentLine line) => Values.Time(line.Number, line.Value).Wall.InUtc().ToInstant().ToUnixTimeSeconds();
}
