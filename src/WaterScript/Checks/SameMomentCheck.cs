using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Two starts of a schedule that fall on one moment.</summary>
internal sealed class SameMomentCheck : ICheck
{
    public IEnumerable<Finding> Find(ScheduleSurvey survey) =>
        survey.Notes(DayNoteKind.SameMoment).Select(note => Finding.At(Rules.SameMoment, note.Origin, $"two starts of \"{note.Schedule.Name}\" fall on one moment", $"the same moment on {Wording.Date(note.FirstDay)}") with
        {
            Others = note.Other is { } other ? [new Label(other, "this one is taken")] : [],
            Details = $"The zones are watered once. {Wording.When(note)}",
            WayOut = "Delete one of the two starts.",
        });
}
