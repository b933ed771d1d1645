namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Goes round in a circle.</summary>
    public static Rule Loop { get; } = new("loop", Severity.Error, "goes round in a circle")
    {
        Category = RuleCategory.Reading,
        Finds = """
            Sequences, groups, lets, includes, supplies or schedules that lead back to themselves.
            """,
        Matters = """
            There is no first step: such a watering could not begin, or would not end.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            group front = back
            group back = front
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            group front = beds
            group back = front
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };
}
