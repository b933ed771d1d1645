namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>An included file outside the root folder.</summary>
    public static Rule IncludeOutside { get; } = new("include-outside", Severity.Error, "an included file outside the root folder")
    {
        Category = RuleCategory.Reading,
        Finds = """
            Includes stay inside the root folder, so that a site can be copied, reviewed and built anywhere.
            """,
        Matters = """
            A file outside can change without anybody who looks after the site seeing it.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            include "../zones.water"
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        KnownLimits = "A link inside the folder that leads out of it is refused too.",
    };
}
