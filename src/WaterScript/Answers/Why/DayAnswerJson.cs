using WaterScript.Wording;

namespace WaterScript.Answers.Why;

/// <summary>Whether a zone is watered on a date and why, for programs.</summary>
public static class DayAnswerJson
{
    /// <summary>Writes it.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(DayAnswer answer, Stream output)
    {
        ArgumentNullException.ThrowIfNull(answer);
        SiteJson.Write("waterscript_why", answer.Site, output, document =>
        {
            document.Json.Entry("zone", answer.Zone.Name);
            document.Date("date", answer.Day);
            document.Maps("waterings", answer.Waterings, watering => Write(watering, document));
            document.Maps("schedules", answer.Schedules, schedule => Write(schedule, document));
        });
    }

    private static void Write(DayWatering watering, SiteJson document)
    {
        document.Moment("from", watering.From);
        document.Moment("to", watering.To);
        document.Json.Entry("schedule", watering.Schedule.Name);
        document.Date("day", watering.Day);
        document.Json.Entry("step", watering.Step);
        document.Place("place", watering.Origin);
    }

    private static void Write(ScheduleAnswer schedule, SiteJson document)
    {
        document.Json.Entry("name", schedule.Schedule.Name);
        document.Flag("due", schedule.IsDue);
        document.Maps("lines", schedule.Lines, line =>
        {
            document.Json.Entry("written", SiteWords.Written(line.Origin));
            document.Json.Entry("says", line.Says);
            document.Json.EntryIf("against", line.IsAgainst);
            document.Place("place", line.Origin);
        });
    }
}
