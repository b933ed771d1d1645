using System.Text;
using WaterScript.Checks;
using WaterScript.Diagnostics;

namespace WaterScript.Comparison;

/// <summary>Whether a zone is watered on a date and why, for people to read.</summary>
public static class DayAnswerText
{
    /// <summary>The answer, the times, then each schedule with the lines that decide.</summary>
    public static string Of(DayAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var words = new SiteWords(answer.Site);
        var text = new StringBuilder();
        text.Append($"{answer.Zone.DisplayName}, {SiteWords.Date(answer.Day)}: {Sum(answer)}\n");
        foreach (var watering in answer.Waterings) text.Append($"  {Words(watering, words)}{OtherDay(watering, answer.Day)}\n");
        if (answer.Schedules.IsEmpty) text.Append("No schedule waters it.\n");
        foreach (var schedule in answer.Schedules)
        {
            text.Append($"{schedule.Schedule.Name}: {(schedule.IsDue ? "due" : "not due")}\n");
            foreach (var line in schedule.Lines) text.Append($"  {SiteWords.Place(line.Origin)}  {SiteWords.Written(line.Origin)}: {line.Says}\n");
        }

        return text.ToString();
    }

    private static string Sum(DayAnswer answer) => answer.Waterings.IsEmpty
        ? "not watered."
        : $"watered {MomentWords.Times(answer.Waterings.Length)}, {Wording.Length(answer.Waterings.Sum(watering => watering.To - watering.From))} in all.";

    private static string Words(DayWatering watering, SiteWords words) =>
        $"{words.Moment(watering.From)} to {words.TimeAfter(watering.To, words.DateAt(watering.From))}, {watering.Schedule.Name}, step {watering.Step} ({SiteWords.Place(watering.Origin)})";

    private static string OtherDay(DayWatering watering, int day) => watering.Day == day ? "" : $", of a pass of {SiteWords.Date(watering.Day)}";
}
