namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Something required is not there.</summary>
    public static Rule Missing { get; } = new("missing", Severity.Error, "something required is not there")
    {
        Category = RuleCategory.Reading,
        Finds = """
            A property or a statement without which the block cannot be understood.
            """,
        Matters = """
            A schedule without a start, or a zone without an output, could never run.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { flow 8 L/min }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; flow 8 L/min }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };
}
