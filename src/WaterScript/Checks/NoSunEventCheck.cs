using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A date on which the sun does not rise, or set.</summary>
internal sealed class NoSunEventCheck : ICheck
{
    public IEnumerable<Finding> Find(ScheduleSurvey survey) =>
        survey.Notes(DayNoteKind.NoSunEvent).Select(note => Finding.At(Rules.NoSunEvent, note.Origin, $"the sun has no such event on {Wording.Date(note.FirstDay)}", "no watering on that date") with
        {
            Details = Wording.When(note),
            WayOut = "Use a clock time for that part of the year.",
        });
}
