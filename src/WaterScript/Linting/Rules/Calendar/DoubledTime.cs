using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A start in the hour that a clock change repeats.</summary>
internal sealed class DoubledTime(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("doubled-time", Severity.Advice, "a start in the hour that a clock change repeats")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            The wall clock shows this time twice on that day. The first of the two is taken (RFC 5545, 3.3.5).
            """,
        Matters = """
            The watering comes once, not twice; what follows it by the clock comes an hour later than usual.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule night { every day; start at 01:30; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule night { every day; start at 02:30; steps { water beds for 10 min } }
            """,
        Sources = "RFC 5545, section 3.3.5; IANA time-zone data.",
    };

    public IEnumerable<Finding> Findings() =>
        context.DayNotes.Of(DayNoteKind.DoubledTime)
            .Select(note => Finding.At(Rule, note.Origin, $"the clock shows {note.Origin.Text} twice on {MomentWords.Date(note.Happens.First.Date)}",
            "runs the first time") with
            {
                Happens = note.Happens,
                Help = "Start outside the repeated hour, or accept it: it waters once.",
            });
}
