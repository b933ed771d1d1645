using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Repeats that, for the sake of the sun, end before the first pass.</summary>
internal sealed class NoPassCheck : ICheck
{
    public IEnumerable<Finding> Find(ScheduleSurvey survey) =>
        survey.Notes(DayNoteKind.NoPass).Select(note => Finding.At(Rules.NoPass, note.Origin, $"\"{note.Schedule.Name}\" has no pass on {Wording.Date(note.FirstDay)}", "starts after its repeats end") with
        {
            Others = note.Other is { } repeat ? [new Label(repeat, "ends before that start")] : [],
            Details = Wording.When(note),
            WayOut = "Start earlier, or let the repeats end later, for that part of the year.",
        });
}
