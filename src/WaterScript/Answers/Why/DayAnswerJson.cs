using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;
using WaterScript.Wording;

namespace WaterScript.Answers.Why;

/// <summary>Whether a zone is watered on a date and why, for programs.</summary>
internal static class DayAnswerJson
{
    /// <summary>Writes it.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(DayAnswer answer, Stream output)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var moments = new SiteMoments(answer.Site);
        var document = new DayAnswerDocument
        {
            Site = answer.Site.Name,
            TimeZoneData = answer.Site.TimeZoneData,
            Zone = answer.Zone.Name,
            Date = moments.Date(answer.Day),
            Waterings = answer.Waterings.Select(watering => Of(watering, moments)),
            Schedules = answer.Schedules.Select(Of),
        };
        JsonDocuments.Write(output, document, new DayAnswerContext(JsonDocuments.Options()).DayAnswerDocument);
    }

    private static DayWateringItem Of(DayWatering watering, SiteMoments moments) => new()
    {
        From = moments.At(watering.From),
        To = moments.At(watering.To),
        Schedule = watering.Schedule.Name,
        Day = moments.Date(watering.Day),
        Step = watering.Step,
        Place = new PlaceItem(watering.Origin),
    };

    private static DayScheduleItem Of(ScheduleAnswer schedule) => new()
    {
        Name = schedule.Schedule.Name,
        Due = schedule.IsDue,
        Lines = schedule.Lines.Select(line => new DayLineItem
        {
            Written = SiteWords.Written(line.Origin),
            Says = line.Says,
            Against = line.IsAgainst ? true : null,
            Place = new PlaceItem(line.Origin),
        }),
    };
}
