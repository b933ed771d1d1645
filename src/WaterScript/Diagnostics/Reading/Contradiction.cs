namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Two statements that exclude each other.</summary>
    public static Rule Contradiction { get; } = new("contradiction", Severity.Error, "two statements that exclude each other")
    {
        Category = RuleCategory.Reading,
        Finds = """
            Both cannot hold. Delete one of them.
            """,
        Matters = """
            Whichever of the two was followed, the other would be broken in silence.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { manual; every day; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };
}
