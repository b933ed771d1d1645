namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Over a limit of the compiler.</summary>
    public static Rule OverLimit { get; } = new("over-limit", Severity.Error, "over a limit of the compiler")
    {
        Category = RuleCategory.Reading,
        Finds = """
            The compiler refuses what could not be carried out or would not end; the limit is named.
            """,
        Matters = """
            A slip such as a repeat every second in place of every hour would fill the memory of a device.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { repeat 1000000 times { water beds for 1 s } } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { repeat 10 times { water beds for 1 s } } }
            """,
        KnownLimits = "The limits are far beyond what any site needs.",
    };
}
