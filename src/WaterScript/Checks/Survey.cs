using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>What all checks of one site share: the site, the dates that are looked at, and what is reckoned once for several.</summary>
internal sealed class Survey(Timetable timetable)
{
    /// <summary>The site.</summary>
    public Site Site => Timetable.Site;

    /// <summary>The dates that are looked at.</summary>
    public Horizon Horizon => Timetable.Horizon;

    /// <summary>What the site does on them.</summary>
    public Timetable Timetable { get; } = timetable;

    /// <summary>What is due and does not come; complete when the walk is over.</summary>
    public Taken Taken { get; } = new();

    /// <summary>What there is to know about single dates; complete when the walk is over.</summary>
    public DayNotes DayNotes { get; } = new();

    /// <summary>Runs that want one zone at once; complete when the walk is over.</summary>
    public ZoneMeetings ZoneMeetings { get; } = new(timetable.Site);

    /// <summary>The site's wall clock, in day numbers.</summary>
    public ZoneClock WallClock { get; } = new(timetable.Site.TimeZone);

    /// <summary>The line that the start of a run's pass is reckoned from.</summary>
    public Location StartOf(in Run run) => StartOf(run.Schedule, run.StartNumber);

    /// <summary>A start of a schedule as written; the schedule itself where it has none of that number.</summary>
    public Location StartOf(int schedule, int number) =>
        Site.Schedules[schedule].Starts.FirstOrDefault(start => start.Number == number)?.Origin ?? Site.Schedules[schedule].Origin;

    /// <summary>The local date of an instant, in days since 1970-01-01.</summary>
    public int DayOf(long instant) => WallClock.At(instant).Day;

    /// <summary>The site's clock at an instant in Unix seconds.</summary>
    public LocalDateTime ClockAt(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(Site.TimeZone).LocalDateTime;

    /// <summary>The time of day of an instant in Unix seconds: <c>06:00</c>.</summary>
    public string Time(long instant) => MomentWords.Time(ClockAt(instant).TimeOfDay);

    /// <summary>An instant in Unix seconds as findings say it: <c>Tue 15 Sep 2026 06:00</c>.</summary>
    public string Moment(long instant) => MomentWords.Moment(ClockAt(instant));
}
