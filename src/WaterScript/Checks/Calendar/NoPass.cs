using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A start that is later than the end of its repeats.</summary>
internal sealed class NoPass(Survey survey) : ICheck
{
    public static Rule Rule { get; } = new("no-pass", Severity.Advice, "a start that is later than the end of its repeats")
    {
        CanBeAccepted = true,
        Finds = """
            On such a day the sun sets, or rises, before the start: there is no pass that day.
            """,
    };

    public IEnumerable<Finding> Findings() =>
        survey.DayNotes.Of(DayNoteKind.NoPass).Select(note => Finding.At(Rule, note.Origin, $"\"{note.Schedule.Name}\" has no pass on {MomentWords.Date(note.Happens.First.Date)}", "starts after its repeats end") with
        {
            Others = note.Other is { } repeat ? [new Label(repeat, "ends before that start")] : [],
            Happens = note.Happens,
            WayOut = "Start earlier, or let the repeats end later, for that part of the year.",
        });
}
