using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A start in the hour that a clock change skips.</summary>
internal sealed class SkippedTime(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("skipped-time", Severity.Warning, "a start in the hour that a clock change skips")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = "The wall clock never shows this time on that day. The start is calculated with the offset before the change (RFC 5545, 3.3.5), so it comes " +
            "later on the clock.",
        Matters = """
            Watering is not lost, but it comes an hour later than written, once a year, and may meet another schedule then.
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
        context.DayNotes.Of(DayNoteKind.SkippedTime)
            .Select(note => Finding.At(Rule, note.Origin, $"the clock skips {note.Origin.Text} on {MomentWords.Date(note.Happens.First.Date)}",
            $"runs at {context.Time(note.Instant)} that day") with
            {
                Happens = note.Happens,
                Help = "Start outside the skipped hour, or accept it: no watering is lost.",
            });
}
