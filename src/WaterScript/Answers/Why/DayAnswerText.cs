using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Why;

/// <summary>Whether a zone is watered on a date and why, for people to read.</summary>
internal static class DayAnswerText
{
    /// <summary>Writes the answer, the times, then each schedule with the lines that decide.</summary>
    public static void Write(DayAnswer answer, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(lines);
        var words = new SiteWords(answer.Site);
        lines.Line($"{answer.Zone.DisplayName}, {SiteWords.Date(answer.Day)}: {Sum(answer)}");
        foreach (var watering in answer.Waterings) lines.Line($"  {Words(watering, words)}{OtherDay(watering, answer.Day)}");
        if (answer.Schedules.IsEmpty) lines.Line("No schedule waters it.");
        foreach (var schedule in answer.Schedules)
        {
            lines.Line($"{schedule.Schedule.Name}: {(schedule.IsDue ? "due" : "not due")}");
            foreach (var line in schedule.Lines) lines.Line($"  {SiteWords.Place(line.Origin)}  {SiteWords.Written(line.Origin)}: {line.Says}");
        }
    }

    private static string Sum(DayAnswer answer) => answer.Waterings.IsEmpty
        ? "not watered."
        : $"watered {MomentWords.Times(answer.Waterings.Length)}, {Phrases.Length(answer.Waterings.Sum(watering => watering.To - watering.From))} in all.";

    private static string Words(DayWatering watering, SiteWords words) =>
        $"{words.Moment(watering.From)} to {words.TimeAfter(watering.To, words.DateAt(watering.From))}, {watering.Schedule.Name}, step {watering.Step} " +
            $"({SiteWords.Place(watering.Origin)})";

    private static string OtherDay(DayWatering watering, int day) => watering.Day == day ? "" : $", of a pass of {SiteWords.Date(watering.Day)}";
}
