using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using WaterScript.Model;
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
        switch (water.By)
        {
            case SkipCause.Hold:
                writer.Entry("by", "hold");
                if (site.Holds.FirstOrDefault(hold => hold.Origin == water.Origin) is { } hold)
                    writer.Entry("hold_from", LocalDateTimePattern.ExtendedIso.Format(hold.From));
                break;
            case SkipCause.ClosedSeason:
                writer.Entry("by", "closed");
                if (site.ClosedSeasons.FirstOrDefault(closed => closed.Origin == water.Origin) is { } season)
                    writer.Map("closed_days", () => DayDescription.Write(writer, season.Days, countedFrom: ""));
                break;
            case SkipCause.Cut:
                writer.Entry("by", "cut");
                writer.Entry("schedule", site.Schedules.FirstOrDefault(schedule => schedule.Cut?.Origin == water.Origin)?.Name);
                break;
            case SkipCause.Scale:
                writer.Entry("by", "scale");
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(water), water.By, "a cause that no output describes");
        }
    }

    private void WriteInstant(string key, long instant)
    {
        Span<byte> buffer = stackalloc byte[Timestamps.Longest];
        writer.Entry(key, _timestamps.Instant(instant, buffer));
    }
}
