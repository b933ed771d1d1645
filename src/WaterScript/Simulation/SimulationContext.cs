using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>
/// What all who observe one walk over a timetable share: the site, the dates, the clock, and who asks for what. It belongs to one thread at a time, as its
/// timetable does.
/// </summary>
/// <param name="timetable">What is walked over.</param>
/// <param name="manual">The manual schedule of which it is one pass; null for the dates of a calendar.</param>
internal class SimulationContext(Timetable timetable, Schedule? manual = null)
{
    /// <summary>The site.</summary>
    public Site Site => Timetable.Site;

    /// <summary>The dates that are looked at.</summary>
    public Horizon Horizon => Timetable.Horizon;

    /// <summary>What the site does on them.</summary>
    public Timetable Timetable { get; } = timetable;

    /// <summary>The manual schedule of which one pass is looked at, on no date in particular; null for all that have a calendar.</summary>
    public Schedule? Manual { get; } = manual;

    /// <summary>Whether what outputs do is to be looked at on the thread that runs are calculated on, since there is no core for another.</summary>
    public bool HasNoThread { get; init; }

    /// <summary>How many runs there are; known when the walk is over.</summary>
    public long Runs { get; set; }

    /// <summary>Start of the latest run whose outputs were looked at, in Unix seconds.</summary>
    public long LastRun { get; set; }

    /// <summary>The longest time from the start of a pass to the end of a run of it, of the runs so far, in seconds.</summary>
    public long LongestPass { get; private set; }

    /// <summary>Takes note of how far a run is from the start of its pass.</summary>
    public void Reach(in Run run) => LongestPass = Math.Max(LongestPass, run.End - run.PassStart);

    /// <summary>Where steps are written.</summary>
    public StepPlaces Steps { get; } = new(timetable);

    /// <summary>Who asked for what is open.</summary>
    public StepOrigins Origins => field ??= new StepOrigins(Site);

    /// <summary>What is due and does not come; complete when the walk is over.</summary>
    public SkippedWater Skipped { get; } = new();

    /// <summary>What passes can ask of zones.</summary>
    public ZonePlans Plans => field ??= new ZonePlans(Timetable);

    /// <summary>The site's wall clock, in day numbers.</summary>
    public ZoneClock WallClock { get; } = new(timetable.Site.TimeZone);

    /// <summary>Counts the work of looking at something; to be called by observers that look at much at once.</summary>
    /// <param name="units">The work, 0 or more.</param>
    /// <exception cref="WorkUsedUpException">There was too much.</exception>
    public void Spend(long units) => Timetable.Budget?.Spend(units);

    /// <summary>Counts work that a schedule asks for.</summary>
    /// <param name="units">The work, 0 or more.</param>
    /// <param name="schedule">Its index.</param>
    /// <exception cref="WorkUsedUpException">There was too much.</exception>
    public void Spend(long units, int schedule) => Timetable.Budget?.Spend(units, schedule);

    /// <summary>The local date of an instant, in days since 1970-01-01.</summary>
    public int DayOf(long instant) => WallClock.At(instant).Day;

    /// <summary>The site's clock at an instant in Unix seconds.</summary>
    public LocalDateTime ClockAt(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(Site.TimeZone).LocalDateTime;

    /// <summary>The line that the start of a run's pass is calculated from.</summary>
    public Location StartOf(in Run run) => StartOf(run.Schedule, run.StartNumber);

    /// <summary>A start of a schedule as written; the schedule itself where it has none of that number.</summary>
    public Location StartOf(int schedule, int number) =>
        Site.Schedules[schedule].Starts.FirstOrDefault(start => start.Number == number)?.Origin ?? Site.Schedules[schedule].Origin;

    /// <summary>The line that gives the scale of a schedule on a date: that of the month, of the scale, or the share itself; null where it has none.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    public Location? ScaleLineOf(Schedule schedule, int day)
    {
        if ((schedule.Scale ?? Site.Scale) is not { } use) return null;
        if (Site.Scales.FirstOrDefault(scale => scale.Name == use.Name) is not { } named) return use.Origin;
        return named is MonthlyScale { Lines: { IsEmpty: false } lines } && lines[CivilDate.FromDayNumber(day).Month - 1] is { } line ? line : named.Origin;
    }

    /// <summary>Indexes of the schedules with a calendar that share something of their zones, for each such thing.</summary>
    /// <param name="shared">The thing, by its index; null for a zone that does not count.</param>
    public IEnumerable<ImmutableArray<int>> SchedulesBy(Func<Zone, int?> shared) => Site.Schedules
        .Where(schedule => !schedule.IsManual)
        .SelectMany(schedule =>
            Timetable.LongestPlanOf(schedule.Index).Runs.Select(run => shared(Site.Zones[run.Zone])).Distinct().Select(thing => (thing, schedule.Index)))
        .Where(entry => entry.thing is not null)
        .GroupBy(entry => entry.thing)
        .Select(group => group.Select(entry => entry.Index).ToImmutableArray());
}
