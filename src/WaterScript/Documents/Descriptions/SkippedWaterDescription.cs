using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Documents.Descriptions;

/// <summary>What is due and does not come, and what takes it.</summary>
internal sealed class SkippedWaterDescription(Site site, DocumentWriter writer)
{
    private readonly Timestamps _timestamps = new(new ZoneClock(site.TimeZone));

    /// <summary>Writes the list. What scale and trim leave out is summed for each zone, whichever its step.</summary>
    public void Write(IEnumerable<SkippedWatering> water) =>
        writer.List("taken", water.GroupBy(each => (each.By == SkipCause.Scale ? default : each.Origin, each.Zone.Index), (_, group) => group.Aggregate(Sum)),
            WriteWater);

    /// <summary>Writes the waterings that are taken one by one, and how many more there are.</summary>
    public void WriteRuns(Timetable timetable, IReadOnlyList<HeldRun> runs, long more)
    {
        writer.List("taken_runs", runs, run => WriteRun(timetable, run));
        writer.Entry("taken_runs_left_out", more > 0 ? more : null);
    }

    private void WriteRun(Timetable timetable, HeldRun run)
    {
        Span<byte> day = stackalloc byte[Timestamps.DateLength];
        writer.StartMap(Layout.OneLine);
        WriteInstant("from", run.Start);
        WriteInstant("to", run.End);
        writer.Entry("zone", site.Zones[run.Planned.Zone].Name);
        writer.Entry("schedule", site.Schedules[run.Pass.Schedule].Name);
        writer.Entry("day", _timestamps.Date(run.Pass.Day, day));
        writer.Entry("step", timetable.StepPath(run.Pass.Schedule, run.Planned.Step));
        writer.Entry("by", WordOf(run.Cause.By));
        writer.Entry("because", run.Cause.Because);
        writer.EndMap();
    }

    private static string WordOf(SkipCause cause) => cause switch
    {
        SkipCause.Hold => "hold",
        SkipCause.ClosedSeason => "closed",
        SkipCause.Cut => "cut",
        SkipCause.Restriction => "restriction",
        SkipCause.Scale => "scale",
        _ => throw new ArgumentOutOfRangeException(nameof(cause), cause, "a cause that no output describes"),
    };

    private static SkippedWatering Sum(SkippedWatering one, SkippedWatering other) => one with
    {
        Runs = one.Runs + other.Runs,
        Seconds = one.Seconds + other.Seconds,
        First = Math.Min(one.First, other.First),
        Last = Math.Max(one.Last, other.Last),
    };

    private void WriteWater(SkippedWatering water)
    {
        writer.StartMap(Layout.OneLine);
        WriteCause(water);
        writer.Entry("because", water.Because);
        writer.Entry("zone", water.Zone.Name);
        writer.Entry("runs", water.Runs);
        writer.Entry("seconds", water.Seconds);
        WriteInstant("first", water.First);
        WriteInstant("last", water.Last);
        writer.EndMap();
    }

    /// <summary>A cause has no name of its own, so it is known by what is written with it; never by its line, which moves with the layout.</summary>
    private void WriteCause(SkippedWatering water)
    {
        writer.Entry("by", WordOf(water.By));
        if (water.By == SkipCause.Hold && site.Holds.FirstOrDefault(hold => hold.Origin == water.Origin) is { } hold)
            writer.Entry("hold_from", LocalDateTimePattern.ExtendedIso.Format(hold.From));
        if (water.By == SkipCause.ClosedSeason && site.ClosedSeasons.FirstOrDefault(closed => closed.Origin == water.Origin) is { } season)
            writer.Map("closed_days", () => DayDescription.Write(writer, season.Days, countedFrom: ""));
        if (water.By == SkipCause.Restriction)
            writer.Entry("restriction", KeepAt(water.Origin)?.Restriction.Name);
        if (water.By == SkipCause.Cut)
            writer.Entry("schedule", site.Schedules.FirstOrDefault(schedule => schedule.Cut?.Origin == water.Origin)?.Name);
    }

    private Keeping? KeepAt(Location origin) => site.Schedules.SelectMany(schedule => schedule.Keeps).FirstOrDefault(keep => keep.Origin == origin);

    private void WriteInstant(string key, long instant)
    {
        Span<byte> buffer = stackalloc byte[Timestamps.Longest];
        writer.Entry(key, _timestamps.Instant(instant, buffer));
    }
}
