using System.Collections.Immutable;
using System.Globalization;
using NodaTime.Text;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Timetables;

namespace WaterScript.Documents.Descriptions;

/// <summary>The sequences and schedules of a site with nothing left to guess: what is not written in the source stands here as it is taken.</summary>
internal sealed class ScheduleDescription(Site site, DocumentWriter writer)
{
    /// <summary>Writes them.</summary>
    public void Write()
    {
        if (!site.Sequences.IsEmpty) writer.List("sequences", site.Sequences, sequence => writer.Map(() => WriteSequence(sequence)));
        writer.List("schedules", site.Schedules, schedule => writer.Map(() => WriteSchedule(schedule)));
    }

    private void WriteSequence(Sequence sequence)
    {
        writer.Entry("name", sequence.Name);
        writer.Entry("label", sequence.Label);
        WriteSteps(sequence.Steps);
    }

    private void WriteSchedule(Schedule schedule)
    {
        writer.Entry("name", schedule.Name);
        writer.Entry("label", schedule.Label);
        writer.Entry("formerly", schedule.Formerly);
        writer.EntryIf("manual", schedule.IsManual);
        writer.Entry("because", schedule.ExtraBecause);
        if (!schedule.IsManual) WriteCalendar(schedule);
        WriteScale(schedule);
        writer.Entry("note", schedule.Note);
        WriteSteps(schedule.Steps);
    }

    private void WriteCalendar(Schedule schedule)
    {
        var anchor = AnchorOf(schedule);
        if (!schedule.Days.IsEmpty) WriteDays("days", schedule.Days, anchor);
        if (schedule.Season is { } season) writer.Map("season", () => DayDescription.Write(writer, season.Span, anchor), Layout.OneLine);
        ImmutableArray<DaySet> except = [.. schedule.OwnExceptLines.SelectMany(line => line.Days)];
        if (!except.IsEmpty) WriteDays("except", except, anchor);
        if (schedule.Skips.Any()) writer.List("skips", schedule.Skips, skip => writer.Map(() => WriteSkip(skip, anchor)));
        if (!schedule.Keeps.IsEmpty) writer.List("keeps_to", schedule.Keeps, keep => writer.Text(keep.Restriction.Name));
        writer.List("starts", schedule.Starts, start => writer.Map(() => WriteStart(start, anchor), Layout.OneLine));
        writer.Map("passes", () => WritePasses(schedule.Repeat), Layout.OneLine);
        if (schedule.Cut is { } cut) writer.Map("cut", () => WriteMoment(cut.At, cut.NextDay), Layout.OneLine);
    }

    private void WriteSkip(DayLine skip, string anchor)
    {
        writer.Entry("because", skip.Because);
        WriteDays("days", skip.Days, anchor);
    }

    /// <summary>What the intervals of a schedule are counted from.</summary>
    private string AnchorOf(Schedule schedule) => schedule.Season?.Span switch
    {
        null => LocalDatePattern.Iso.Format(site.Effective),
        DateRange range => LocalDatePattern.Iso.Format(range.First),
        _ => "season",
    };

    private void WriteDays(string key, ImmutableArray<DaySet> days, string anchor) =>
        writer.List(key, days, set => writer.Map(() => DayDescription.Write(writer, set, anchor), Layout.OneLine));

    private void WriteStart(Start start, string anchor)
    {
        writer.Entry("start", start.Number);
        switch (start)
        {
            case StartAt at:
                writer.Map("at", () => WriteMoment(at.Moment));
                break;
            case FinishBy finish:
                writer.Map("finish_by", () => WriteMoment(finish.Moment));
                break;
            case StartAfter after:
                writer.Entry("after", after.Other);
                writer.Entry("delay_s", Measure.Seconds(after.Delay));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(start), start, "a start that no output describes");
        }

        if (!start.On.IsEmpty) WriteDays("days", start.On, anchor);
    }

    private void WritePasses(Repeat? repeat)
    {
        if (repeat is null)
        {
            writer.Entry("count", 1L);
            return;
        }

        writer.Entry("every_s", Measure.Seconds(repeat.Every));
        if (repeat is RepeatTimes times) writer.Entry("count", times.Passes);
        else if (repeat is RepeatUntil until) writer.Map("until", () => WriteMoment(until.Until, until.NextDay));
    }

    private void WriteMoment(Moment moment, bool nextDay = false)
    {
        if (moment is ClockMoment clock)
        {
            writer.Entry("clock", ClockText(clock.SecondOfDay));
        }
        else if (moment is SunMoment sun)
        {
            writer.Entry("sun", sun.Event == SunEvent.Sunrise ? "sunrise" : "sunset");
            writer.Entry("offset_s", Measure.Seconds(sun.Offset));
        }

        writer.EntryIf("next_day", nextDay);
    }

    /// <summary>A schedule's own scale, else the site's; as in the timetable, neither for a manual schedule or an extra pass.</summary>
    private void WriteScale(Schedule schedule)
    {
        if ((schedule.Scale ?? (schedule.IsManual || schedule.IsExtra ? null : site.Scale)) is not { } scale) return;
        writer.Entry("scale", scale.Name);
        writer.Entry("scale_percent", Measure.Rounded(scale.Percent));
        if (site.Scales.FirstOrDefault(other => other.Name == scale.Name) is ClimateScale && ScaleTable.For(schedule, site).ByMonth is { } months)
            writer.Map("scale_months_percent", () => MonthShares.Write(writer, months), Layout.OneLine);
    }

    private void WriteSteps(ImmutableArray<Step> steps) => writer.List("steps", steps, step => writer.Map(() => WriteStep(step), LayoutOf(step)));

    private static Layout LayoutOf(Step step) => step is RepeatStep or CycleStep ? Layout.Lines : Layout.OneLine;

    private void WriteStep(Step step)
    {
        switch (step)
        {
            case WaterStep water:
                WriteWater(water);
                break;
            case TogetherStep together:
                writer.List("together", together.Waters, water => writer.Map(() => WriteWater(water), Layout.OneLine));
                break;
            case PauseStep pause:
                writer.Entry("pause_s", Measure.Seconds(pause.Length));
                break;
            case RepeatStep repeat:
                writer.Entry("times", repeat.Times);
                WriteSteps(repeat.Steps);
                break;
            case CycleStep cycle:
                writer.EntryIf("cycle_auto", cycle.Cycle is null);
                writer.Entry("cycle_s", Measure.Seconds(cycle.Cycle));
                writer.Entry("soak_s", Measure.Seconds(cycle.Soak));
                WriteSteps(cycle.Steps);
                break;
            case RunStep run:
                writer.Entry("run", run.Sequence.Name);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(step), step, "a step that no output describes");
        }
    }

    private void WriteWater(WaterStep water)
    {
        writer.List("water", water.Parts, part => WriteTogether(part));
        writer.Entry("seconds", Measure.Seconds(water.For));
        if (water.With is { } amount) writer.Entry(amount.Dimension == Dimension.Depth ? "depth_mm" : "volume_l", Measure.Rounded(amount.InBase));
        writer.EntryIf("exactly", water.IsExact);
        writer.Entry("through", water.Through);
        if (water.Dose is not { } dose) return;
        writer.Entry("dose_s", dose.Seconds);
        if (dose.Amount is { } volume) writer.Entry("dose_l", Measure.Rounded(volume.InBase));
    }

    private void WriteTogether(ZonePart part)
    {
        writer.StartList();
        foreach (var zone in part.Zones) writer.Text(zone.Name);
        writer.EndList();
    }

    private static string ClockText(int second) =>
        string.Create(CultureInfo.InvariantCulture, $"{second / 3_600:00}:{second / 60 % 60:00}:{second % 60:00}");
}
