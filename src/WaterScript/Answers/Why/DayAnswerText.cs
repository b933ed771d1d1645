using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Why;

/// <summary>Whether a zone is watered on a date and why, for people to read.</summary>
internal static class DayAnswerText
{
    /// <summary>The longest line that all others are set beside.</summary>
    private const int WidestLine = 60;

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
            WriteLines(schedule.Lines, lines);
        }
    }

    /// <summary>The lines in order of the file, what decides beside them.</summary>
    private static void WriteLines(IEnumerable<DecidingLine> deciding, PlainLines lines)
    {
        var rows = deciding.GroupBy(line => line.Origin.Source.Path).SelectMany(file => file.OrderBy(line => line.Origin.Span.Start))
            .Select(line => (Text: $"{SiteWords.Place(line.Origin)}  {SiteWords.Written(line.Origin)}", line.Says)).ToList();
        var column = rows.Select(row => row.Text.Length).Where(length => length <= WidestLine).DefaultIfEmpty().Max();
        foreach (var (text, says) in rows) lines.Line($"  {text.PadRight(column)}  {says}");
    }

    private static string Sum(DayAnswer answer) => answer.Waterings.IsEmpty
        ? "not watered."
        : $"watered {MomentWords.Times(answer.Waterings.Length)}, {Phrases.Length(answer.Waterings.Sum(watering => watering.To - watering.From))} in all.";

    private static string Words(DayWatering watering, SiteWords words) =>
        $"{words.Moment(watering.From)} to {words.TimeAfter(watering.To, words.DateAt(watering.From))}, {watering.Schedule.Name}, step {watering.Step} " +
            $"({SiteWords.Place(watering.Origin)})";

    private static string OtherDay(DayWatering watering, int day) => watering.Day == day ? "" : $", of a pass of {SiteWords.Date(watering.Day)}";
}
