namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Stated twice.</summary>
    public static Rule StatedTwice { get; } = new("stated-twice", Severity.Error, "stated twice")
    {
        Category = RuleCategory.Reading,
        Finds = """
            A property or statement that may stand once stands twice; which of the two holds would be a guess.
            """,
        Matters = """
            The line that somebody changes is then easily the one that does not count.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; output 2 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };
}
