namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>A quantity of another kind.</summary>
    public static Rule WrongUnit { get; } = new("wrong-unit", Severity.Error, "a quantity of another kind")
    {
        Category = RuleCategory.Reading,
        Finds = """
            A quantity whose unit measures something else than what is needed here.
            """,
        Matters = """
            A flow in litres lacks the time, and a time in litres cannot be kept.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; flow 8 L }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; flow 8 L/min }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };
}
