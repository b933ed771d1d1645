using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A moment that the wall clock skips.</summary>
internal sealed class SkippedTimeCheck : ICheck
{
    public IEnumerable<Finding> Find(ScheduleSurvey survey) =>
        survey.Notes(DayNoteKind.SkippedTime).Select(note => Finding.At(Rules.SkippedTime, note.Origin, $"the clock skips {note.Origin.Text} on {Wording.Date(note.FirstDay)}", $"taken as {Wording.Moment(note.Instant, survey.Timetable.Site.TimeZone)}") with
        {
            Details = Wording.When(note),
            WayOut = "Start outside the hour that the clock change skips, or leave it: the watering comes later on that clock, and none is lost.",
        });
}
