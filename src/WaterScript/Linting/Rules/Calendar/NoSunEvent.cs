using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A day without this sun event.</summary>
internal sealed class NoSunEvent(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("no-sun-event", Severity.Warning, "a day without this sun event")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Near the poles there are days on which the sun does not rise or set. Such a day gets no start.
            """,
        Matters = """
            In the brightest weeks of the year, when plants need most, nothing would be watered.
            """,
        Fires = """
            site plot { timezone Europe/Oslo; location 69.6 N 18.9 E; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at sunset; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Oslo; location 69.6 N 18.9 E; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        KnownLimits = "The sun is calculated for level ground: mountains are not known.",
    };

    public IEnumerable<Finding> Findings() =>
        context.DayNotes.Of(DayNoteKind.NoSunEvent)
            .Select(note => Finding.At(Rule, note.Origin, $"the sun does not {VerbOf(note)} on {MomentWords.Date(note.Happens.First.Date)}",
            "no watering on that date") with
            {
                Happens = note.Happens,
                Help = "Use a clock time for that part of the year.",
            });

    private static string VerbOf(DayNoteGroup note) => (Says(note, "sunrise"), Says(note, "sunset")) switch
    {
        (true, false) => "rise",
        (false, true) => "set",
        _ => "rise or set",
    };

    private static bool Says(DayNoteGroup note, string word) => note.Origin.Text.Contains(word, StringComparison.Ordinal);
}
