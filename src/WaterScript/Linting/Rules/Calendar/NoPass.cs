using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A start that is later than the end of its repeats.</summary>
internal sealed class NoPass(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("no-pass", Severity.Advice, "a start that is later than the end of its repeats")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            On such a day the sun sets, or rises, before the start: there is no pass that day.
            """,
        Matters = """
            In winter the sun may set before the start of the day, and nothing is watered until spring.
            """,
        Fires = """
            site plot { timezone Europe/Berlin; location 52.5 N 13.4 E; effective 2026-03-01 }
            zone beds { output 1 }
            schedule mist { every day; start at 16:30; repeat every 1 h until sunset; steps { water beds for 10 s } }
            """,
        Fixed = """
            site plot { timezone Europe/Berlin; location 52.5 N 13.4 E; effective 2026-03-01 }
            zone beds { output 1 }
            schedule mist { every day; start at 12:00; repeat every 1 h until sunset; steps { water beds for 10 s } }
            """,
    };

    public IEnumerable<Finding> Findings() =>
        context.DayNotes.Of(DayNoteKind.NoPass)
            .Select(note => Finding.At(Rule, note.Origin, $"schedule {note.Schedule.Name} has no pass on {MomentWords.Date(note.Happens.First.Date)}",
            "starts after its repeats end") with
            {
                Others = note.Other is { } repeat ? [new Label(repeat, "repeats end before that start")] : [],
                Happens = note.Happens,
                Help = "Start earlier, or let the repeats end later, for that part of the year.",
            });
}
