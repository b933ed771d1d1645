using NodaTime;
using WaterScript.Calendars;
using WaterScript.Timetables;

namespace WaterScript;

/// <summary>A zone is watered: what a schedule asks for, before anything that the hardware adds.</summary>
public sealed class ZoneRun
{
    internal ZoneRun(Timetable timetable, in Run run)
    {
        var site = timetable.Site;
        Number = run.Number;
        Start = Instant.FromUnixTimeSeconds(run.Start).InZone(site.TimeZone);
        End = Instant.FromUnixTimeSeconds(run.End).InZone(site.TimeZone);
        Zone = site.Zones[run.Zone].Name;
        Schedule = site.Schedules[run.Schedule].Name;
        Date = CivilDate.FromDayNumber(run.Day).ToLocalDate();
        Step = timetable.StepPath(run);
        Injector = run.Injector < 0 ? null : site.Devices[run.Injector].Name;
    }

    /// <summary>Its place among the runs of the timetable, from 1.</summary>
    public long Number { get; }

    /// <summary>Its first moment, in whole seconds, in the zone of the site.</summary>
    public ZonedDateTime Start { get; }

    /// <summary>The moment just past its end, in whole seconds; after <see cref="Start"/>.</summary>
    public ZonedDateTime End { get; }

    /// <summary>The name of the zone.</summary>
    public string Zone { get; }

    /// <summary>The name of the schedule.</summary>
    public string Schedule { get; }

    /// <summary>The date that it belongs to, which is that of its pass; a run after midnight may belong to the date before.</summary>
    public LocalDate Date { get; }

    /// <summary>The step of the schedule: <c>3.2</c>, or <c>3#2.1</c> inside a repetition.</summary>
    public string Step { get; }

    /// <summary>The name of the injector that doses, or null.</summary>
    public string? Injector { get; }
}
