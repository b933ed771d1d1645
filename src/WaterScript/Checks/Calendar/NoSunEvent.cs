using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A day without this sun event.</summary>
internal sealed class NoSunEvent(Survey survey) : ICheck
{
    public static Rule Rule { get; } = new("no-sun-event", Severity.Warning, "a day without this sun event")
    {
        CanBeAccepted = true,
        Finds = """
            Near the poles there are days on which the sun does not rise or set. Such a day gets no start.
            """,
    };

    public IEnumerable<Finding> Findings() =>
        survey.DayNotes.Of(DayNoteKind.NoSunEvent).Select(note => Finding.At(Rule, note.Origin, $"the sun has no such event on {MomentWords.Date(note.Happens.First.Date)}", "no watering on that date") with
        {
            Happens = note.Happens,
            WayOut = "Use a clock time for that part of the year.",
        });
}
