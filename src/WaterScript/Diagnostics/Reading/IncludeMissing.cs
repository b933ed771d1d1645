namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>An included file that is not there.</summary>
    public static Rule IncludeMissing { get; } = new("include-missing", Severity.Error, "an included file that is not there")
    {
        Category = RuleCategory.Reading,
        Finds = """
            The path of an `include` is read from the folder of the file that it stands in.
            """,
        Matters = """
            What the missing file describes would not be watered.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            include "zones.water"
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
    };
}
