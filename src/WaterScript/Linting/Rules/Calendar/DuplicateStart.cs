using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>Two starts at one moment.</summary>
internal sealed class DuplicateStart(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("duplicate-start", Severity.Advice, "two starts at one moment")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Two starts of a schedule that fall on the same moment of a date are one: the zones are watered once.
            """,
        Matters = """
            Somebody who wrote two starts may count on twice the water.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; start at 8 pm; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };

    public IEnumerable<Finding> Findings() =>
        context.DayNotes.Of(DayNoteKind.DuplicateStart)
            .Select(note => Finding.At(Rule, note.Origin, $"two starts of schedule {note.Schedule.Name} fall on one moment",
            $"the same moment on {MomentWords.Date(note.Happens.First.Date)}") with
            {
                Others = note.Other is { } other ? [new Label(other, "this one counts")] : [],
                Happens = note.Happens,
                Details = "The zones are watered once.",
                Help = "Delete one of the two starts.",
            });
}
