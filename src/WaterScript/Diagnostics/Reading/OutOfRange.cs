namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>A value that cannot be.</summary>
    public static Rule OutOfRange { get; } = new("out-of-range", Severity.Error, "a value that cannot be")
    {
        Category = RuleCategory.Reading,
        Finds = """
            A value outside what the property can take, or a date or time that does not exist.
            """,
        Matters = """
            A start at 25:00 never comes.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 25:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 01:00; steps { water beds for 10 min } }
            """,
        FixSafety = "Where a uniformity is written as a share of one, the percentage is written. Safe. Else there is none.",
    };
}
