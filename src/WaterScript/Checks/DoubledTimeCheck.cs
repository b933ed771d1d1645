using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A moment that the wall clock shows twice.</summary>
internal sealed class DoubledTimeCheck : ICheck
{
    public IEnumerable<Finding> Find(ScheduleSurvey survey) =>
        survey.Notes(DayNoteKind.DoubledTime).Select(note => Finding.At(Rules.DoubledTime, note.Origin, $"the clock shows {note.Origin.Text} twice on {Wording.Date(note.FirstDay)}", "the first of the two is taken") with
        {
            Details = Wording.When(note),
            WayOut = "Start outside the hour that the clock change repeats, or leave it: the watering comes once.",
        });
}
