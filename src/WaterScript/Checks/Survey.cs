using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Model;
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

    /// <summary>The site's clock at an instant in Unix seconds.</summary>
    public LocalDateTime ClockAt(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(Site.TimeZone).LocalDateTime;

    /// <summary>An instant in Unix seconds as findings say it: <c>Tue 15 Sep 2026 06:00</c>.</summary>
    public string Moment(long instant) => MomentWords.Moment(ClockAt(instant));
}
